/** What a screen has at hand: how the run stands, and what may be done. */

import type { Item } from "../../../parts/clocks/items";
import type { Near, Screen } from "../run/steps";
import type { Press, Step as StepTold, Told } from "../told";

/** What lies over the screen until it is closed. */
export type Form =
  | { readonly form: "more" }
  | { readonly form: "others" }
  | { readonly form: "lots" }
  | { readonly form: "log" }
  | { readonly form: "found" }
  | { readonly form: "sheets" }
  | { readonly form: "ask"; readonly press: Press; readonly n: number; readonly answers: Readonly<Record<string, string>> }
  | { readonly form: "reading"; readonly press: Press };

export interface AtBench {
  readonly told: Told;
  readonly screen: Screen;
  readonly items: readonly Item[];
  /** The step in hand, as it stands on its sheet. */
  readonly step: StepTold | null;
  readonly online: boolean;
  /** Whether this device may press at all. */
  readonly writes: boolean;
  /** The server's clock [ms]. */
  now(): number;
  press(press: Press): void;
  open(form: Form | null): void;
  strike(): void;
  /** Poured on, as it was asked for. */
  pourOn(near: Near): void;
  /** Of this lot, from now on. */
  choose(lot: string): void;
  registerMold(): void;
  photo(file: Blob): void;
  turnTo(step: string, turn: number): void;
}
