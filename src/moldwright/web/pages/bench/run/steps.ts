/** What was pressed here since the server told how the run stands, and which screen that makes: no figure is reckoned. */

import { momentOf } from "../../../parts/clocks/moments";
import type { Ahead, NextPart, OverRow, Press, PutRight, Told, View, Way } from "../told";

/** One press of this device. `ids`: of the entries that it wrote, `lines`: of those that it put a line through. */
export type Step = { readonly at_ms: number; readonly ids: readonly string[]; readonly lines?: readonly string[]; readonly words: string } & (
  | { readonly did: "ahead" }
  | { readonly did: "stay" }
  | { readonly did: "short"; readonly reads_g: number }
  | { readonly did: "some"; readonly text: string }
  | { readonly did: "over"; readonly put_right: PutRight }
  | { readonly did: "near"; readonly row: OverRow }
  | { readonly did: "way"; readonly way: Way }
  | { readonly did: "then" }
  | { readonly did: "turn"; readonly turn: string }
  | { readonly did: "beyond" }
);

/** A reading of which nobody here knows what to do: one pours on to the next one that was told. */
export interface Near {
  readonly row: OverRow;
  /** The entries of that reading. */
  readonly ids: readonly string[];
}

/** Some of a part that goes in by volume, as it was typed; the whole takes its place. */
export interface Some {
  readonly text: string;
  readonly ids: readonly string[];
}

/** The screen: what is shown, and by what. */
export interface Screen {
  readonly view: View;
  /** What to do with readings past the limit, where the server is not asked. */
  readonly over: readonly OverRow[];
  /** A cup that was poured over, as one here found it. */
  readonly put_right: PutRight | null;
  readonly near: Near | null;
  readonly some: Some | null;
  /** A part that goes in by new totals. */
  readonly then: NextPart | null;
  /** What the scale read here with some of the part in hand, null before [g]. */
  readonly short_g: number | null;
  /** Before this the act that is shown must wait [ms]. */
  readonly not_before_ms: number | null;
  /** Nobody here knows how it goes on: the server must be asked. */
  readonly beyond: boolean;
  /** Presses that turn the work aside, by their `turn`, of which it is known here what follows. */
  readonly turns: readonly string[];
  /** When each press of those that were foreseen was made. */
  readonly presses: readonly number[];
}

/** The screen of a moment: where all must wait it goes on by itself once that is over. */
export function screenOf(told: Told, steps: readonly Step[], now_ms: number): Screen {
  const first: Ahead = { view: told.view, not_before: null, over: told.over, turns: told.turns };
  let at = start([first, ...told.ahead], 0, []);
  for (const step of steps) at = after(waited(at, step.at_ms), step);
  return shown(waited(at, now_ms));
}

function waited(at: At, now_ms: number): At {
  const till = at.all[at.n]?.view.press === "wait" ? at.all[at.n + 1]?.not_before : null;
  const low = till ? momentOf(till.low, at.presses) : null;
  return low !== null && low <= now_ms ? waited(start(at.all, at.n + 1, at.presses), now_ms) : at;
}

/** When a press was made, by the number of the screen that it was on. */
function pressed(at: At, at_ms: number): readonly number[] {
  const presses = [...at.presses];
  presses[at.n] = at_ms;
  return presses;
}

interface At {
  readonly all: readonly Ahead[];
  readonly n: number;
  readonly presses: readonly number[];
  readonly short_g: number | null;
  readonly put_right: PutRight | null;
  readonly near: Near | null;
  readonly some: Some | null;
  readonly left: readonly NextPart[];
  readonly beyond: boolean;
}

function start(all: readonly Ahead[], n: number, presses: readonly number[]): At {
  return { all, n, presses, short_g: null, put_right: null, near: null, some: null, left: [], beyond: n >= all.length };
}

function after(at: At, step: Step): At {
  switch (step.did) {
    case "ahead":
      return start(at.all, at.n + 1, pressed(at, step.at_ms));
    case "stay":
      return at;
    case "short":
      return { ...at, short_g: step.reads_g };
    case "over":
      return { ...at, put_right: step.put_right, near: null };
    case "some":
      return { ...at, some: { text: step.text, ids: step.ids } };
    case "near":
      return { ...at, near: { row: step.row, ids: step.ids } };
    case "way":
      return by(at, step);
    case "then":
      return at.left.length > 1 ? { ...at, left: at.left.slice(1) } : behindCup(at, step.at_ms);
    case "turn":
      return aside(at, step.turn, step.at_ms);
    case "beyond":
      return { ...at, beyond: true };
  }
}

function by(at: At, step: Step & { readonly did: "way" }): At {
  if (step.way.kind === "new-targets" && step.way.then.length) return { ...at, put_right: null, left: step.way.then };
  if (step.way.kind === "new-targets") return behindCup(at, step.at_ms);
  if (step.way.kind === "lift-out" && at.put_right) return start(at.all, at.n + 1, pressed(at, step.at_ms));
  return aside(at, step.way.press.turn, step.at_ms);
}

/** Off the line of presses that go right, onto the one that was told of this turn; where none was, the server must be asked. */
function aside(at: At, turn: string, at_ms: number): At {
  const line = asTold(at) ? (at.all[at.n]?.turns ?? {})[turn] : undefined;
  if (!line) return { ...at, put_right: null, beyond: true };
  return start([...at.all.slice(0, at.n + 1), ...line], at.n + 1, pressed(at, at_ms));
}

/** Whether the run stands as the screen was told, nothing of the part in hand being written. */
function asTold(at: At): boolean {
  return !at.beyond && at.short_g === null && !at.put_right && !at.near && !at.some && !at.left.length;
}

/** What is lifted out of a part that was poured over here leaves it right. */
function known(at: At): readonly string[] {
  if (at.put_right) return at.put_right.ways.filter((way) => way.kind === "lift-out").map((way) => way.press.turn);
  return asTold(at) ? Object.keys(at.all[at.n]?.turns ?? {}) : [];
}

/** All parts of the cup are in: on to the screen behind its last weighing. */
function behindCup(at: At, at_ms: number): At {
  const cup = JSON.stringify(at.all[at.n]?.view.cup?.ref);
  let n = at.n + 1;
  while (at.all[n]?.view.press === "weigh" && JSON.stringify(at.all[n]?.view.cup?.ref) === cup) n += 1;
  const presses = [...at.presses];
  for (let each = at.n; each < n; each += 1) presses[each] = at_ms;
  return start(at.all, n, presses);
}

function shown(at: At): Screen {
  const last = at.all.length - 1;
  const now = at.all[Math.min(at.n, last)] as Ahead;
  return {
    view: now.view,
    over: now.over,
    put_right: at.put_right,
    near: at.near,
    some: at.some,
    then: at.put_right ? null : (at.left[0] ?? null),
    short_g: at.short_g,
    not_before_ms: now.not_before ? momentOf(now.not_before.low, at.presses) : null,
    beyond: at.beyond || at.near !== null || at.n > last,
    turns: known(at),
    presses: at.presses,
  };
}

/** Whether only the desk knows what follows a press. */
export function waitsForDesk(screen: Screen, press: Press): boolean {
  return press.turn !== "" && !screen.turns.includes(press.turn);
}

/** The row for a reading past the limit: the next higher one, to which one pours on; null beyond the last. */
export function rowFor(over: readonly OverRow[], reads_g: number): OverRow | null {
  return over.find((row) => row.reads_g >= reads_g - 1e-6) ?? null;
}

/** Whether it is told for that very reading what to do. */
export function told(row: OverRow, reads_g: number): boolean {
  return row.reads_g - reads_g < 1e-6;
}

/** The press with the two cut corners. */
export function mainOf(presses: readonly Press[]): Press | null {
  return presses.find((press) => press.main) ?? presses[0] ?? null;
}
