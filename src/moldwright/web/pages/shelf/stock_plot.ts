/** A stock over the weeks to come: likely as a line, low to high as a band; the figures are those of the table under it. */

import uPlot from "uplot";

const TALL_PX = 220;

class StockPlot extends HTMLElement {
  private plot: uPlot | null = null;
  private readonly look = matchMedia("(prefers-color-scheme: dark)");
  private readonly again = (): void => this.draw();
  private readonly sized = new ResizeObserver(() => this.plot?.setSize({ width: this.clientWidth, height: TALL_PX }));

  connectedCallback(): void {
    this.draw();
    this.look.addEventListener("change", this.again);
    this.sized.observe(this);
  }

  disconnectedCallback(): void {
    this.look.removeEventListener("change", this.again);
    this.sized.disconnect();
    this.plot?.destroy();
    this.plot = null;
  }

  private draw(): void {
    this.plot?.destroy();
    this.querySelector(".plot")?.remove();
    const place = document.createElement("div");
    place.className = "plot";
    place.setAttribute("role", "img");
    place.setAttribute("aria-label", this.dataset.words ?? "");
    this.prepend(place);
    this.plot = new uPlot(this.options(), this.figures(), place);
  }

  private figures(): uPlot.AlignedData {
    const rows = [...this.querySelectorAll<HTMLElement>("tr[data-day]")];
    const days = rows.map((row) => Date.parse(`${row.dataset.day}T00:00:00`) / 1000);
    const of = (name: "low" | "likely" | "high"): number[] => rows.map((row) => Number(row.dataset[name]));
    return [days, of("high"), of("low"), of("likely")];
  }

  private options(): uPlot.Options {
    const color = (name: string): string => getComputedStyle(this).getPropertyValue(name).trim();
    const ink = color("--ink");
    const font = `16px ${color("--read")}`;
    const axis = { stroke: ink, font, grid: { stroke: color("--line"), width: 1 }, ticks: { stroke: color("--edge") } };
    return {
      width: this.clientWidth || 320,
      height: TALL_PX,
      cursor: { show: false },
      legend: { show: false },
      scales: { y: { range: (_plot, _low, high) => [0, high * 1.05 || 1] } },
      axes: [
        { ...axis, space: 90, size: 64 },
        { ...axis, size: 100, values: (_plot, marks) => marks.map((mark) => `${mark} ${this.dataset.unit ?? ""}`) },
      ],
      bands: [{ series: [1, 2], fill: color("--soft") }],
      series: [{}, { width: 0, points: { show: false } }, { width: 0, points: { show: false } }, { stroke: ink, width: 3, points: { show: false } }],
    };
  }
}

if (!customElements.get("mw-stock-plot")) customElements.define("mw-stock-plot", StockPlot);
