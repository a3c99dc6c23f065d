/** Today and the wall: long work and clocks go on under one's eyes, and what is under way is asked for again and again. */

import { stayAwake } from "../../parts/awake";
import "../../parts/clocks/clocks";
import { serverTime } from "../../parts/clocks/clocks";
import { shown } from "../../parts/clocks/stage";
import "../../parts/work";

const EVERY_MS = 10_000;
/** So long without an answer is told on the wall: three were missed. */
const STALE_MS = 3 * EVERY_MS + 5000;

/** `<mw-under-way>`: the runs under way; with `data-wall` the screen stays on, and what is old is told to be. */
class UnderWay extends HTMLElement {
  private timer = 0;
  private busy = false;
  private heard_ms = performance.now();

  connectedCallback(): void {
    serverTime();
    if (this.dataset["wall"] !== undefined) stayAwake();
    this.timer = window.setInterval(() => void this.ask(), EVERY_MS);
    this.addEventListener("turn", () => void this.ask());
    document.addEventListener("visibilitychange", this.seen);
  }

  disconnectedCallback(): void {
    window.clearInterval(this.timer);
    document.removeEventListener("visibilitychange", this.seen);
  }

  private readonly seen = (): void => void this.ask();

  private async ask(): Promise<void> {
    if (this.busy || document.hidden) return;
    this.busy = true;
    try {
      const answer = await fetch(`/api/under-way${this.dataset["wall"] === undefined ? "" : "?wall=true"}`, { credentials: "same-origin" });
      if (answer.status === 401) location.reload();
      else if (answer.ok) this.show(await answer.text());
    } catch {
      // No Wi-Fi: asked again soon; how long it is so is told below.
    }
    this.busy = false;
    this.stale();
  }

  /** Written anew only where something else is told; the focus stays where it was. */
  private show(fresh: string): void {
    this.heard_ms = performance.now();
    if (fresh === this.told) return;
    this.told = fresh;
    const focus = this.contains(document.activeElement) ? document.activeElement?.id : "";
    this.innerHTML = fresh;
    if (focus) document.getElementById(focus)?.focus();
  }
  private told = "";

  private stale(): void {
    const line = document.querySelector<HTMLElement>(".stale");
    if (!line) return;
    const since_ms = performance.now() - this.heard_ms;
    line.hidden = since_ms < STALE_MS;
    line.textContent = `${line.dataset["words"]} ${shown({ stage: "running", ms: since_ms, share: 0 })}`;
  }
}

customElements.define("mw-under-way", UnderWay);
