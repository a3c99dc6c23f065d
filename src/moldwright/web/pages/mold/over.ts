/** What lies over the canvas: names of the pieces, the bar that tells the size, marks of places that were read. */

import { endSign } from "./ends";
import { made } from "./made";
import { placed } from "./pick";
import type { Readings } from "./readings";
import type { Told } from "./told";
import type { Shown, View } from "./view";

const BAR_PX = 110;
/** A name keeps so far off the upper edge. */
const LEAST_PX = 92;
const SIDE_PX = 8;
/** A name lies so much nearer to the arrow's point than to the piece. */
const ARROW_PX = 30;

export class Over {
  readonly box = made("div", "over");
  private readonly bar = made("div", "bar-of-scale");
  private readonly names: readonly { id: string; label: HTMLElement }[];
  private readonly marks = [made("span", "mark-of-place"), made("span", "mark-of-place")];
  private readonly ends = { least: endSign("least"), most: endSign("most") };

  constructor(private readonly told: Told) {
    const pieces = told.parts.filter((part) => part.kind === "shell");
    this.names = pieces.map((part) => {
      const label = made("p", "name-of-piece");
      label.append(made("strong", "", part.name), made("span", "", part.line));
      return { id: part.id, label };
    });
    const { least, most } = this.ends;
    this.box.append(...this.names.map(({ label }) => label), this.bar, least, most, ...this.marks, made("span", "mark-of-middle"));
  }

  lay(view: View, shown: Shown, readings: Readings): void {
    for (const { id, label } of this.names) {
      const body = view.pieces().find((one) => one.solid.id === id);
      label.hidden = !body || !body.group.visible || shown.apart_mm === 0 || shown.inside !== null;
      if (!body) continue;
      const top = body.group.localToWorld(body.top.clone());
      const { x } = view.seenAt(top);
      const y = Math.min(view.seenAt(top).y, view.arrowAt(body).y + ARROW_PX);
      const half = label.offsetWidth / 2 + SIDE_PX;
      put(label, { x: Math.max(half, Math.min(this.box.clientWidth - half, x)), y: Math.max(y, LEAST_PX) });
    }
    this.marks.forEach((mark, n) => {
      const place = readings.places[n];
      mark.hidden = !place || !place.body.group.visible;
      if (place) put(mark, view.seenAt(placed(place.body, place.corner)));
    });
    this.layEnds(view, shown);
    this.size(view.mm_per_px);
  }

  /** The signs of the least and the most; paler where the place lies on the far side. */
  private layEnds(view: View, { quantity }: Shown): void {
    const body = quantity && view.bodies.find((one) => one.solid.id === quantity.part);
    for (const name of ["least", "most"] as const) {
      const end = quantity?.ends.find((one) => one.name === name);
      const sign = this.ends[name];
      sign.toggleAttribute("hidden", !end || !body || !body.group.visible);
      if (!end || !body) continue;
      sign.classList.toggle("behind", !view.faces(body, end.corner));
      put(sign, view.seenAt(placed(body, end.corner)));
    }
  }

  private size(mm_per_px: number): void {
    const { mm, told } = this.told.bars;
    const fits = mm.findLastIndex((length) => length / mm_per_px <= BAR_PX);
    const n = Math.max(0, fits);
    this.bar.style.width = `${(mm[n] ?? 0) / mm_per_px}px`;
    this.bar.dataset["told"] = told[n] ?? "";
  }
}

function put(element: HTMLElement | SVGElement, at: { x: number; y: number }): void {
  element.style.left = `${at.x}px`;
  element.style.top = `${at.y}px`;
}
