/** What runs on the screen now: cups' clocks, tack windows, waits, with the words that the server gave them. */

import { capital } from "../capital";
import { say } from "../words";
import { momentOf, momentsOf, type CupClock, type Runs, type TackWindow, type Wait } from "./moments";
import { shown, stand } from "./stage";

/** `stage` of a tack window or a wait is its own. */
export type ItemStage = "rest" | "running" | "last fifth" | "past" | "too soon" | "tacky" | "closing" | "too late" | "waiting";

export interface Item {
  /** By which it is known over reloads. */
  readonly id: string;
  readonly kind: "cup" | "window" | "wait";
  /** What it is about, and that with what its time means. */
  readonly name: string;
  readonly label: string;
  readonly left: string;
  readonly stage: ItemStage;
  /** What to do, past its end; "" before. */
  readonly todo: string;
  /** Along its rule, 0 to 1: what is left of a clock; now, opens and closes of a window. */
  readonly share: number;
  readonly opens: number;
  readonly closes: number;
  /** A clock so short that it becomes the screen. */
  readonly far: boolean;
}

/** A resin that is past use within three minutes is poured by the clock alone; our own. */
const FAR_MS = 180_000;
const ORDER: readonly ItemStage[] = ["past", "last fifth", "too late", "closing", "running", "tacky", "too soon", "waiting", "rest"];

/** A cup whose parts have not met: all of its time is there. */
export function resting(cup: string, lasts_ms: number): Item {
  const at = stand({ from_ms: null, by_ms: null, lasts_ms }, 0);
  const name = capital(cup);
  const places = { share: at.share, opens: 0, closes: 1, far: false };
  return { id: `rest ${cup}`, kind: "cup", name, label: say("rests", { cup: name }), left: shown(at), stage: "rest", todo: "", ...places };
}

type Presses = readonly number[];

/** All of them, the most urgent first. `presses`: when those were made from which moments count. */
export function items(runs: Runs, presses: Presses, now_ms: number): Item[] {
  const found = [...cups(runs.clocks, presses, now_ms), ...windows(runs.windows, presses, now_ms), ...waits(runs.waits, presses, now_ms)];
  return found.sort((one, other) => ORDER.indexOf(one.stage) - ORDER.indexOf(other.stage));
}

function cups(clocks: readonly CupClock[], presses: Presses, now_ms: number): Item[] {
  return clocks.flatMap((clock): Item[] => {
    const [from_ms, by_ms, over_ms] = [clock.start, clock.out_by, clock.work_by].map((when) => momentOf(when, presses));
    if (from_ms == null || by_ms == null || over_ms == null) return [];
    const at = stand({ from_ms, by_ms, lasts_ms: by_ms - from_ms }, now_ms);
    const todo = at.stage !== "past" ? "" : now_ms >= over_ms ? clock.spent : clock.past;
    const stage = at.stage === "rest" ? "running" : at.stage;
    const name = capital(clock.cup);
    const rest = { opens: 0, closes: 1, share: at.share, far: by_ms - from_ms <= FAR_MS };
    return [{ id: `cup ${clock.cup} ${from_ms}`, kind: "cup", name, label: say("on-work-in", { cup: name }), left: shown(at), stage, todo, ...rest }];
  });
}

function windows(all: readonly TackWindow[], presses: Presses, now_ms: number): Item[] {
  return all.flatMap((window): Item[] => {
    const [from_ms, closing_ms] = [window.start, window.closing].map((when) => momentOf(when, presses));
    const [opens, closes] = [momentsOf(window.opens, presses), momentsOf(window.closes, presses)];
    if (from_ms == null || closing_ms == null || !opens || !closes) return [];
    const late = now_ms >= closes.likely;
    const stage = late ? "too late" : now_ms < opens.low ? "too soon" : now_ms >= closing_ms ? "closing" : "tacky";
    const to_ms = stage === "too soon" ? opens.low : closes.likely;
    const whole = Math.max(1, closes.high - from_ms, closes.likely - from_ms) * 1.15;
    const along = (ms: number): number => Math.min(1, Math.max(0, (ms - from_ms) / whole));
    const left = shown(late ? { stage: "past", ms: now_ms - to_ms, share: 0 } : { stage: "running", ms: to_ms - now_ms, share: 0 });
    const label = say(stage === "too soon" ? "tacky-in" : late ? "was-tacky" : "stays-tacky", { of: window.of });
    const places = { share: along(now_ms), opens: along(opens.low), closes: along(closes.likely), far: false };
    return [{ id: `window ${window.of} ${from_ms}`, kind: "window", name: window.of, label, left, stage, todo: late ? window.late : "", ...places }];
  });
}

function waits(all: readonly Wait[], presses: Presses, now_ms: number): Item[] {
  return all.flatMap((wait): Item[] => {
    const from_ms = momentOf(wait.start, presses);
    const ends = momentsOf(wait.ends, presses);
    if (from_ms === null || !ends || now_ms >= ends.high) return [];
    const soon = now_ms < ends.low;
    const to_ms = soon ? ends.low : now_ms < ends.likely ? ends.likely : ends.high;
    const at = stand({ from_ms, by_ms: to_ms, lasts_ms: to_ms - from_ms }, now_ms);
    const label = say(soon ? "waits" : now_ms < ends.likely ? "waits-likely" : "waits-latest", { of: wait.of });
    const places = { share: at.share, opens: 0, closes: 1, far: false };
    return [{ id: `wait ${wait.of} ${from_ms}`, kind: "wait", name: wait.of, label, left: shown({ ...at, stage: "running" }), stage: "waiting", todo: "", ...places }];
  });
}

/** Moments after `since_ms` at which the server may know of something else to do. */
export function turns(runs: Runs, presses: Presses, since_ms: number): number[] {
  const ends = [...runs.waits.map((wait) => wait.ends), ...runs.windows.map((window) => window.opens)];
  const moments = ends.flatMap((each) => [each.low, each.likely, each.high]).map((when) => momentOf(when, presses));
  return moments.filter((ms): ms is number => ms !== null && ms > since_ms);
}
