/** Which clock knocks now: once where its last fifth begins, and from its end on every half minute until somebody pressed. */

import type { Stage } from "../../../parts/clocks/stage";

const AGAIN_MS = 30_000;
const KEPT = "moldwright-knocked";

interface Knocked {
  stage: Stage;
  at_ms: number;
  pressed: boolean;
}

export class Alarms {
  private readonly knocked: Map<string, Knocked>;

  constructor(private readonly knock: (kind: "last fifth" | "end") => void) {
    this.knocked = new Map(Object.entries(JSON.parse(sessionStorage.getItem(KEPT) ?? "{}") as Record<string, Knocked>));
  }

  /** A clock, by a name that it keeps over reloads, stands so at that moment. */
  told(clock: string, stage: Stage, now_ms: number): void {
    const before = this.knocked.get(clock);
    if (stage === "last fifth" && before?.stage !== "last fifth") {
      this.take(clock, { stage, at_ms: now_ms, pressed: false });
      this.knock("last fifth");
    } else if (stage === "past" && (before?.stage !== "past" || (!before.pressed && now_ms - before.at_ms >= AGAIN_MS))) {
      this.take(clock, { stage, at_ms: now_ms, pressed: false });
      this.knock("end");
    } else if ((stage === "running" || stage === "rest") && before) {
      this.knocked.delete(clock);
      this.save();
    }
  }

  /** Somebody pressed something: what is past is known. */
  pressed(): void {
    for (const each of this.knocked.values()) each.pressed = true;
    this.save();
  }

  private take(clock: string, stand: Knocked): void {
    this.knocked.set(clock, stand);
    this.save();
  }

  private save(): void {
    sessionStorage.setItem(KEPT, JSON.stringify(Object.fromEntries(this.knocked)));
  }
}
