/** The outbox: entries in the order in which they were pressed, kept until the server has each of them. */

import { reading, writing } from "./database";

/** What happened, as the log has it; `bench`, `by`: the device as it is known there, and who works at it. */
export interface Happened {
  readonly bench: string;
  readonly by: string;
  readonly id: string;
  readonly kind: string;
  readonly at_ms: number;
  readonly body: Readonly<Record<string, unknown>>;
}

/** Why the server did not take one, in the form of every refusal. */
export interface WhyNot {
  readonly found: string;
  readonly remedy: string;
}

export interface Entry {
  readonly seq: number;
  readonly run: string;
  readonly event: Happened;
  /** In a few words, for who looks at what waits. */
  readonly words: string;
  /** A picture that goes before its event, which then names it. */
  readonly photo?: Blob;
  readonly refused?: WhyNot;
}

export type NewEntry = Omit<Entry, "seq">;

/** Tells whoever shows the outbox, in this window and in others, that it has changed. */
export const changes = new EventTarget();
const others = "BroadcastChannel" in globalThis ? new BroadcastChannel("moldwright-outbox") : undefined;
others?.addEventListener("message", () => changes.dispatchEvent(new Event("change")));

function changed(): void {
  changes.dispatchEvent(new Event("change"));
  others?.postMessage("change");
}

/** Keep them, all or none. */
export async function keep(entries: readonly NewEntry[]): Promise<void> {
  await writing("entries", (store) => {
    for (const entry of entries) store.add(entry);
  });
  changed();
}

/** All that are there, the oldest first. */
export function all(): Promise<Entry[]> {
  return reading("entries", (store) => store.getAll() as IDBRequest<Entry[]>);
}

/** Those of a run that wait to be sent; none where this device can keep none. */
export async function waitingOf(run: string): Promise<readonly Entry[]> {
  const every = await all().catch((): Entry[] => []);
  return every.filter((entry) => entry.run === run && !entry.refused);
}

/** Those the server has are taken off; those that it did not take are kept with its reason. */
export async function settle(taken: readonly Entry[], refused: ReadonlyMap<number, WhyNot>): Promise<void> {
  await writing("entries", (store) => {
    for (const entry of taken) {
      const why = refused.get(entry.seq);
      if (why) store.put({ ...entry, refused: why });
      else store.delete(entry.seq);
    }
  });
  changed();
}

/** One that was refused is sent once more, behind all others. */
export async function again(entry: Entry): Promise<void> {
  const { refused: _, seq, ...rest } = entry;
  await writing("entries", (store) => {
    store.delete(seq);
    store.add(rest);
  });
  changed();
}

/** One that somebody has read and does not want any more is taken off. */
export async function takeOff(entry: Entry): Promise<void> {
  await writing("entries", (store) => void store.delete(entry.seq));
  changed();
}
