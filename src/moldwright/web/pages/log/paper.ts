/**
 * A sheet of paper as boxes: Enter and the arrows go from box to box, the last Enter sends. What became of it is told under the
 * boxes, then the next sheet comes; where something was typed since, it waits for a press.
 */

import { saying } from "../../parts/said";
import { send } from "../../parts/send";

const SHOWN_MS = 1200;

export class PaperSheet extends HTMLElement {
  #turning = 0;
  #typed = false;
  #told = "";

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
    form.addEventListener("input", () => this.wait());
    form.querySelector("[data-turn]")!.addEventListener("click", () => this.turn());
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
    this.wait();
  }

  private async go(form: HTMLFormElement): Promise<void> {
    this.#typed = false;
    const day = form.querySelector<HTMLInputElement>('[name="day"]')!.value;
    const rows = Object.fromEntries(this.boxes.filter((box) => box.value.trim()).map((box) => [box.name, box.value]));
    const kept = await saying(this, () => send("POST", this.getAttribute("path")!, { day, rows }));
    if (kept === undefined) return;
    const told = form.querySelector("output")!;
    this.#told ||= told.textContent!;
    told.textContent = this.#told.replace(/\{(\w+)\}/g, (_, name: string) => String(kept[name]));
    told.hidden = false;
    form.querySelector<HTMLElement>("[data-turn]")!.hidden = false;
    if (!this.#typed) this.#turning = window.setTimeout(() => this.turn(), SHOWN_MS);
  }

  /** Something is typed that is not sent yet: the sheet stays. */
  private wait(): void {
    this.#typed = true;
    window.clearTimeout(this.#turning);
  }

  private turn(): void {
    const next = this.getAttribute("next");
    if (next) location.assign(next);
    else location.reload();
  }
}

customElements.define("mw-paper", PaperSheet);
