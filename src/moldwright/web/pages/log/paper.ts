/**
 * A sheet of paper as boxes: Enter and the arrows go from box to box, the last Enter sends. What became of it is told under the
 * boxes, then the next sheet comes.
 */

import { saying } from "../../parts/said";
import { send } from "../../parts/send";

const SHOWN_MS = 1200;

export class PaperSheet extends HTMLElement {
  private get boxes(): HTMLInputElement[] {
    return [...this.querySelectorAll<HTMLInputElement>(".box input")];
  }

  connectedCallback(): void {
    const form = this.querySelector("form")!;
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      void this.go(form);
    });
    form.addEventListener("keydown", (event) => this.step(event));
    this.querySelector("[data-tick]")!.addEventListener("click", () => this.tick());
    this.boxes.find((box) => !box.parentElement!.querySelector(".there"))?.focus();
  }

  private step(event: KeyboardEvent): void {
    const at = this.boxes.indexOf(event.target as HTMLInputElement);
    const by = event.key === "Enter" || event.key === "ArrowDown" ? 1 : event.key === "ArrowUp" ? -1 : 0;
    const to = at < 0 || !by ? undefined : this.boxes[at + by];
    if (!to) return;
    event.preventDefault();
    to.focus();
    to.select();
  }

  private tick(): void {
    for (const box of this.querySelectorAll<HTMLInputElement>(".box.tick input")) box.value ||= "x";
  }

  private async go(form: HTMLFormElement): Promise<void> {
    const day = form.querySelector<HTMLInputElement>('[name="day"]')!.value;
    const rows = Object.fromEntries(this.boxes.filter((box) => box.value.trim()).map((box) => [box.name, box.value]));
    const kept = await saying(this, () => send("POST", this.getAttribute("path")!, { day, rows }));
    if (kept === undefined) return;
    const told = form.querySelector("output")!;
    told.textContent = told.textContent!.replace(/\{(\w+)\}/g, (_, name: string) => String(kept[name]));
    told.hidden = false;
    const next = this.getAttribute("next");
    window.setTimeout(() => (next ? location.assign(next) : location.reload()), SHOWN_MS);
  }
}

customElements.define("mw-paper", PaperSheet);
