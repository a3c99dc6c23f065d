/** What the server tells of clocks: `moldwright/told/bench/view.py` and `when.py` as JSON. */

/** A moment of the server's clock; with `after` so long after that press of `ahead`. */
export interface When {
  readonly ms: number;
  readonly after: number | null;
}

export interface Whens {
  readonly low: When;
  readonly likely: When;
  readonly high: When;
}

export interface CupClock {
  readonly cup: string;
  readonly start: When;
  readonly last_from: When;
  readonly out_by: When;
  readonly work_by: When;
  readonly past: string;
  readonly spent: string;
}

export interface TackWindow {
  readonly of: string;
  readonly next: string;
  readonly next_step: string;
  readonly next_turn: number;
  readonly start: When;
  readonly opens: Whens;
  readonly closing: When;
  readonly closes: Whens;
  readonly late: string;
}

export interface Wait {
  readonly of: string;
  readonly next: string;
  readonly start: When;
  readonly ends: Whens;
}

/** What runs. */
export interface Runs {
  readonly clocks: readonly CupClock[];
  readonly windows: readonly TackWindow[];
  readonly waits: readonly Wait[];
}

/** A moment of the server's clock; null where the press that it counts from was not made. */
export function momentOf(when: When, presses: readonly number[]): number | null {
  if (when.after === null) return when.ms;
  const from = presses[when.after];
  return from === undefined ? null : from + when.ms;
}

export interface Moments {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

export function momentsOf(whens: Whens, presses: readonly number[]): Moments | null {
  const [low, likely, high] = [whens.low, whens.likely, whens.high].map((when) => momentOf(when, presses));
  return low === null || likely === null || high === null || low === undefined || likely === undefined || high === undefined
    ? null
    : { low, likely, high };
}
