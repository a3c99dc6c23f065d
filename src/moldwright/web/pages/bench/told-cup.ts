/** A cup as the server tells it: `moldwright/told/bench/view_cup.py` as JSON. */

import type { Press } from "./told";

export interface CupPart {
  readonly kind: string;
  readonly name: string;
  readonly state: "in" | "now" | "to-come" | "short" | "over";
  readonly by: string;
  readonly total_g: number;
  readonly total: string;
  readonly mass: string;
}

/** How a cup goes into the mold; "" for no mold. */
export type Pour = "" | "turned" | "filled" | "down-a-side";

export interface Cup {
  readonly ref: Readonly<Record<string, unknown>>;
  readonly name: string;
  readonly holds_g: number;
  readonly holds: string;
  readonly in_g: number;
  readonly in_text: string;
  readonly parts: readonly CupPart[];
  readonly measure: string;
  /** So long after its parts meet it must be on the work [ms]; null once they have met. */
  readonly out_in_ms: number | null;
  readonly pour: Pour;
}

export interface Lot {
  readonly id: string;
  readonly name: string;
  readonly keeps: string;
  readonly doubts: readonly string[];
  readonly grave: boolean;
  readonly sheet: string;
}

export interface NextPart {
  readonly say: string;
  readonly figure: string;
  readonly unit: string;
  readonly low: number;
  readonly high: number;
  readonly press: Press;
}

export interface Way {
  readonly kind: "new-targets" | "divide" | "lift-out" | "start-again" | "first-stands" | "second-stands";
  readonly title: string;
  readonly lines: readonly string[];
  readonly press: Press;
  readonly cup: Cup | null;
  readonly then: readonly NextPart[];
}

export interface PutRight {
  readonly head: string;
  readonly why: string;
  readonly ways: readonly Way[];
}

export interface OverRow {
  readonly reads_g: number;
  readonly reads: string;
  readonly put_right: PutRight;
}
