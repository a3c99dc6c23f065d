/** Asks the server how the run stands: every few seconds, at once when a clock has come to its end, never over what
 * waits to be sent. */

import { waitingOf } from "../../../parts/outbox/entries";
import { sender, type Taken } from "../../../parts/outbox/sending";
import { Refused, send } from "../../../parts/send";
import type { Told } from "../told";
import type { Run } from "./run";

const EVERY_MS = 3000;
/** Who did not press for so long has the time to be told how it goes on for a while without the server. */
const QUIET_MS = 6000;
const PATIENCE_MS = 10_000;

export class Asking {
  wanted: { readonly step: string; readonly turn: number } | null = null;
  private whole = true;
  /** The mark for which it was told far ahead. */
  private far = "";
  private timer = 0;
  private busy = false;

  constructor(private readonly run: Run) {}

  start(): void {
    sender.asks = (run) => (run === this.run.told.run ? `told=true&${this.query()}` : "");
    sender.addEventListener("taken", (event) => void this.answered((event as CustomEvent<Taken>).detail));
    sender.addEventListener("state", () => sender.way === "open" && void this.now());
    document.addEventListener("visibilitychange", () => document.hidden || void this.now());
    void this.now();
  }

  /** Ask now, for the whole. */
  async now(): Promise<void> {
    this.whole = true;
    await this.ask();
  }

  private async ask(): Promise<void> {
    if (this.busy) return;
    this.busy = true;
    clearTimeout(this.timer);
    const began = performance.now();
    const far = began - this.run.wrote > QUIET_MS && (this.whole || this.far !== this.run.told.mark);
    try {
      const told: Told | null = await send("GET", this.path(far), undefined, AbortSignal.timeout(PATIENCE_MS));
      sender.goes("open");
      this.whole = false;
      if (told && began > Math.max(this.run.wrote, sender.settled)) await this.take(told);
      if (told && far) this.far = told.mark;
    } catch (error) {
      sender.goes(error instanceof Refused && error.status < 500 ? (error.status === 401 ? "signed-out" : "open") : "no-answer");
    } finally {
      this.busy = false;
      this.timer = setTimeout(() => void this.ask(), EVERY_MS);
    }
  }

  /** Without a change since the mark the answer is empty. */
  private path(far: boolean): string {
    const how = far ? "&far=true" : this.whole ? "" : `&mark=${encodeURIComponent(this.run.told.mark)}`;
    return `/api/bench/${this.run.told.run}?${this.query()}${how}`;
  }

  private query(): string {
    const query = new URLSearchParams();
    if (this.wanted) {
      query.set("step", this.wanted.step);
      query.set("turn", String(this.wanted.turn));
    }
    for (const [step, turn, key] of this.run.skipped) query.append("passed", `${step}/${turn}/${key}`);
    for (const lot of this.run.chosen) query.append("lot", lot);
    return String(query);
  }

  private async answered(taken: Taken): Promise<void> {
    if (taken.run === this.run.told.run && taken.told) await this.take(taken.told as Told);
  }

  /** What was pressed here and is not there yet counts more than what the server knew then. */
  private async take(told: Told): Promise<void> {
    if (!(await waitingOf(told.run)).length) this.run.take(told);
  }
}
