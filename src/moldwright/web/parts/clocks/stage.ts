/** Where a clock stands: what is left, which part of it, in which stage. */

export type Stage = "rest" | "running" | "last fifth" | "past";

/** A time that runs from one moment to another, both of the server's clock; without a beginning it is at rest. */
export interface Running {
  readonly from_ms: number | null;
  readonly by_ms: number | null;
  readonly lasts_ms: number;
}

export interface Stand {
  readonly stage: Stage;
  /** Left; past: over it [ms]. */
  readonly ms: number;
  /** Of the whole, 0 to 1 of what is left. */
  readonly share: number;
}

const LAST_SHARE = 0.2;

export function stand(clock: Running, now_ms: number): Stand {
  if (clock.from_ms === null || clock.by_ms === null) return { stage: "rest", ms: clock.lasts_ms, share: 1 };
  const left = clock.by_ms - now_ms;
  const share = Math.min(1, Math.max(0, left / Math.max(1, clock.by_ms - clock.from_ms)));
  if (left <= 0) return { stage: "past", ms: -left, share: 0 };
  return { stage: share <= LAST_SHARE ? "last fifth" : "running", ms: left, share };
}

const HOUR_S = 3600;

/** "4:10" under an hour, "2 h 05" above; what is left is never shown as more than it is, "+0:42" past. */
export function shown(at: Stand): string {
  const seconds = Math.floor(at.ms / 1000);
  const sign = at.stage === "past" ? "+" : "";
  if (seconds >= HOUR_S) return `${sign}${Math.floor(seconds / HOUR_S)} h ${two(Math.floor((seconds % HOUR_S) / 60))}`;
  return `${sign}${Math.floor(seconds / 60)}:${two(seconds % 60)}`;
}

function two(number: number): string {
  return String(number).padStart(2, "0");
}
