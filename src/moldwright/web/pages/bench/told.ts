/** What the server tells of a run: `moldwright/told/bench/view*.py` as JSON. Words and figures are final. */

import type { CupClock, TackWindow, Wait, When, Whens } from "../../parts/clocks/moments";
import type { Cup, Lot, OverRow, PutRight } from "./told-cup";

export type { CupClock, TackWindow, Wait, When, Whens } from "../../parts/clocks/moments";
export type { Cup, CupPart, Lot, NextPart, OverRow, Pour, PutRight, Way } from "./told-cup";

export interface Ask {
  readonly field: string;
  readonly what: "mass" | "volume" | "temperature" | "length" | "lengths" | "air" | "text" | "number" | "share" | "choice";
  readonly label: string;
  readonly unit: string;
  readonly may_lack: boolean;
  /** What follows the press hangs on it, and is told ahead only where nothing is typed. */
  readonly decides: boolean;
}

export interface Template {
  readonly kind: string;
  readonly body: Readonly<Record<string, unknown>>;
}

export interface Press {
  readonly id: string;
  readonly label: string;
  readonly small: string;
  readonly main: boolean;
  readonly events: readonly Template[];
  readonly asks: readonly Ask[];
  readonly online: boolean;
  /** By what the screens are found that follow it where it turns the work aside; "" where it does not. */
  readonly turn: string;
}

export interface LogEntry {
  readonly id: string;
  readonly code: string;
  readonly text: string;
  readonly by: string;
  readonly at: When;
  readonly gone: boolean;
}

export interface ActInHand {
  readonly step: string;
  readonly number: number;
  readonly turn: number;
  readonly casts: number;
  readonly name: string;
  readonly begun: boolean;
  readonly cup: number;
  readonly cups: number;
}

export interface Figure {
  readonly text: string;
  readonly unit: string;
  readonly value: number;
  readonly unit_is: number;
}

export interface Limits {
  readonly low: number;
  readonly high: number;
  readonly low_text: string;
  readonly high_text: string;
}

export interface OtherAct {
  readonly step: string;
  readonly turn: number;
  readonly number: number;
  readonly name: string;
  readonly title: string;
  readonly begun: boolean;
  readonly since: When | null;
}

export interface LayerState {
  readonly state: "built" | "in-hand" | "to-come";
  readonly share: number;
  readonly packing: string;
}

export interface View {
  readonly press: "weigh" | "put-right" | "lay" | "write" | "number" | "done" | "wait" | "end" | "ended";
  readonly act: ActInHand | null;
  readonly say: string;
  readonly figure: Figure | null;
  readonly more: string;
  readonly limits: Limits | null;
  readonly heed: readonly string[];
  readonly cup: Cup | null;
  readonly lot: Lot | null;
  readonly lots: readonly Lot[];
  readonly box: { readonly step: string; readonly turn: number; readonly key: string; readonly label: string } | null;
  readonly put_right: PutRight | null;
  readonly presses: readonly Press[];
  readonly aside: readonly Press[];
  readonly clocks: readonly CupClock[];
  readonly windows: readonly TackWindow[];
  readonly waits: readonly Wait[];
  readonly wall: { readonly wall: string; readonly layers: readonly LayerState[] } | null;
  readonly others: readonly OtherAct[];
  readonly mold_made: boolean;
}

export interface Ahead {
  readonly view: View;
  readonly not_before: Whens | null;
  readonly over: readonly OverRow[];
  readonly turns: Turns;
}

/** The screens after each press that turns the work aside. */
export type Turns = Readonly<Record<string, readonly Ahead[]>>;

export interface Caution {
  readonly severity: "note" | "heed" | "stop";
  readonly text: string;
  readonly hazard: boolean;
  /** What to do first of skin and eyes. */
  readonly first_aid: boolean;
  readonly pictograms: readonly string[];
  readonly gear: readonly string[];
}

/** So many of the first columns are words. */
export interface Table {
  readonly title: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
  readonly words: number;
}

export interface Step {
  readonly number: number;
  readonly title: string;
  readonly time: string;
  readonly group: string;
  readonly at_hand: string;
  readonly before: readonly string[];
  readonly do: readonly string[];
  readonly write: readonly string[];
  readonly cautions: readonly Caution[];
  readonly pictograms: readonly string[];
  readonly first_aid: string;
  readonly lift: string;
  readonly wait: string;
  readonly waits_within: boolean;
  readonly tables: readonly Table[];
  readonly sheets: readonly { readonly stuff: string; readonly file: string }[];
}

export interface WallLayer {
  readonly key: string;
  readonly name: string;
  readonly sub: readonly string[];
  readonly color: string;
  readonly pattern: string;
  readonly share: number;
  readonly notches: number;
}

export interface Told {
  readonly run: string;
  readonly code: string;
  readonly piece: string;
  readonly mark: string;
  readonly now_ms: number;
  readonly units: string;
  readonly scale_step: string;
  readonly casts: number;
  readonly view: View;
  /** What Strike out takes of this device. */
  readonly strikes: { readonly ids: readonly string[]; readonly text: string; readonly at: When } | null;
  readonly over: readonly OverRow[];
  readonly turns: Turns;
  readonly ahead: readonly Ahead[];
  readonly steps: Readonly<Record<string, Step>>;
  readonly walls: Readonly<Record<string, readonly WallLayer[]>>;
  readonly mishaps: readonly string[];
  readonly log: readonly LogEntry[];
  readonly found: readonly { readonly severity: string; readonly text: string }[];
}
