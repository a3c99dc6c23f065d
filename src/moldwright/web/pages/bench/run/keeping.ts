/** The last view of a run and what was pressed since, kept for a reload without a server. */

import { reading, writing } from "../../../parts/outbox/database";
import type { Told } from "../told";
import type { Step } from "./steps";

export interface KeptRun {
  readonly run: string;
  readonly told: Told;
  readonly steps: readonly Step[];
  /** What this device wrote last, the newest last: for Strike out. */
  readonly mine: readonly Step[];
  /** Cautions that filled the screen already. */
  readonly seen: readonly string[];
  readonly chosen?: readonly string[];
  /** Boxes that were passed over: step, cast, key. */
  readonly skipped: readonly (readonly [string, number, string])[];
}

export function kept(run: string): Promise<KeptRun | undefined> {
  return reading("views", (store) => store.get(run) as IDBRequest<KeptRun | undefined>);
}

export function keepRun(run: KeptRun): Promise<void> {
  return writing("views", (store) => void store.put(run));
}
