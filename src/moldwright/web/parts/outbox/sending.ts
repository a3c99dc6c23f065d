/** Sends the outbox: in order, the same again until the server has it. Once at a time over all windows of the device. */

import { NoAnswer, Refused, send } from "../send";
import { all, changes, settle, type Entry, type Happened, type WhyNot } from "./entries";
import { renewToken } from "./token";

const AT_ONCE = 100;
const FIRST_MS = 1000;
const LONGEST_MS = 30_000;
const PATIENCE_MS = 20_000;
/** A photo that takes longer has met a way that hangs; all that waits behind it must not. */
const PHOTO_PATIENCE_MS = 120_000;
/** Statuses by which the same call may succeed later (RFC 9110, 15.5; RFC 8470; RFC 6585), as all from 500 on. */
const LATER = [408, 425, 429];
/** An entry at which the desk itself fails (RFC 9110, 15.6.1) is tried so often, then it waits in the tray: others go on. */
const FAILS = 500;
const MOST_FAILS = 4;

interface Became {
  readonly id: string;
  readonly became: "kept" | "known" | "refused";
  readonly said?: WhyNot;
  /** What is to be known of one that is kept. */
  readonly note?: string;
}

interface Answer {
  readonly events: readonly Became[];
  readonly told?: unknown;
}

/** Entries of a run are over there; `told`: how it stands now, where that was asked for. */
export interface Taken {
  readonly run: string;
  readonly told?: unknown;
  /** What is to be known of what was kept, each in words. */
  readonly notes: readonly string[];
}

export type Way = "open" | "no-answer" | "signed-out";

/** Sends; tells "state" when the way opens or closes, "taken" with the server's answer when entries are over there. */
export class Sender extends EventTarget {
  way: Way = "open";
  /** Since when nothing came back, by the device's steady clock [ms]. */
  since = 0;
  /** When the server last answered to entries, by the same clock [ms]. */
  settled = 0;
  /** What a page that shows the run adds to the call, to be told how it stands then. */
  asks: (run: string) => string = () => "";
  private pause_ms = 0;
  private timer = 0;
  private busy = false;
  /** The first of those at which the desk failed, and how often. */
  private failed = { seq: -1, times: 0 };

  start(): void {
    changes.addEventListener("change", () => this.way === "open" && void this.send());
    addEventListener("online", () => this.now());
    document.addEventListener("visibilitychange", () => document.hidden || this.now());
    void this.send();
  }

  /** Try at once. */
  now(): void {
    this.pause_ms = 0;
    void this.send();
  }

  async send(): Promise<void> {
    if (this.busy) return;
    this.busy = true;
    clearTimeout(this.timer);
    try {
      await alone(() => this.sendAll());
    } finally {
      this.busy = false;
    }
  }

  /** A call that is refused as a whole is sent once more entry by entry, and nothing asked beside: none keeps another. */
  private async sendAll(): Promise<void> {
    let most = AT_ONCE;
    const toSend = async (): Promise<readonly Entry[]> => batch(await all().catch((): Entry[] => []), most);
    for (let next = await toSend(); next.length; next = await toSend()) {
      try {
        await this.sendSome(next, most > 1);
        this.goes("open");
      } catch (error) {
        if (!(error instanceof Refused) || this.again(error.status, next, most)) return this.later();
        if (error.status === 401) return this.later("signed-out");
        if (error.code === "token-missing") {
          if (await renewToken()) continue;
          return this.later("signed-out");
        }
        if (most > 1) {
          most = 1;
          continue;
        }
        const why = { found: error.said.found, remedy: error.remedy };
        await settle(next, new Map(next.map((entry) => [entry.seq, why])));
      }
    }
  }

  /** Whether it is tried again later; of many entries each is tried alone first where the desk failed. */
  private again(status: number, sent: readonly Entry[], most: number): boolean {
    if (status !== FAILS) return status > FAILS || LATER.includes(status);
    if (most > 1) return false;
    const seq = sent[0]?.seq ?? -1;
    this.failed = { seq, times: this.failed.seq === seq ? this.failed.times + 1 : 1 };
    return this.failed.times < MOST_FAILS;
  }

  private async sendSome(entries: readonly Entry[], asks: boolean): Promise<void> {
    const run = entries[0]?.run ?? "";
    const asked = asks ? this.asks(run) : "";
    const events = await Promise.all(entries.map((entry) => withPhoto(entry)));
    const answer: Answer | null = await send("POST", `/api/bench/${run}/events${asked && `?${asked}`}`, { events }, AbortSignal.timeout(PATIENCE_MS));
    if (!answer) throw new NoAnswer();
    const became = new Map(answer.events.map((each) => [each.id, each]));
    const refused = new Map<number, WhyNot>();
    for (const entry of entries) {
      const one = became.get(entry.event.id);
      if (one?.became === "refused") refused.set(entry.seq, one.said ?? { found: "", remedy: "" });
    }
    await settle(entries.filter((entry) => became.has(entry.event.id)), refused);
    this.settled = performance.now();
    this.dispatchEvent(new CustomEvent<Taken>("taken", { detail: { run, told: answer.told, notes: notesOf(entries, became) } }));
  }

  private later(way: Way = "no-answer"): void {
    this.goes(way);
    this.pause_ms = Math.min(LONGEST_MS, this.pause_ms ? this.pause_ms * 2 : FIRST_MS);
    this.timer = setTimeout(() => void this.send(), this.pause_ms);
  }

  /** Whoever else called the server tells here whether it answered. */
  goes(way: Way): void {
    if (way === "open") this.pause_ms = 0;
    if (way === this.way) return;
    if (this.way === "open") this.since = performance.now();
    this.way = way;
    this.dispatchEvent(new Event("state"));
    if (way === "open") void this.send();
  }
}

/** What goes in one call: of one run, a photo on its own, so many at once. */
function batch(entries: readonly Entry[], most: number): readonly Entry[] {
  const waiting = entries.filter((entry) => !entry.refused);
  const first = waiting[0];
  if (!first) return [];
  if (first.photo) return [first];
  const end = waiting.findIndex((entry) => entry.run !== first.run || entry.photo);
  return waiting.slice(0, end < 0 ? most : Math.min(end, most));
}

function notesOf(entries: readonly Entry[], became: ReadonlyMap<string, Became>): readonly string[] {
  const noted = entries.map((entry) => ({ words: entry.words, note: became.get(entry.event.id)?.note }));
  return noted.filter((each) => each.note).map((each) => `${each.words}: ${each.note}.`);
}

async function withPhoto(entry: Entry): Promise<Happened> {
  if (!entry.photo) return entry.event;
  const kept: { file: string } | null = await send("PUT", "/api/files?name=photo", entry.photo, AbortSignal.timeout(PHOTO_PATIENCE_MS));
  return { ...entry.event, body: { ...entry.event.body, file: kept?.file } };
}

/** Only one window of the device sends at a time, where the browser lets windows agree. */
async function alone(act: () => Promise<void>): Promise<void> {
  if (!("locks" in navigator)) return act();
  await navigator.locks.request("moldwright-outbox", act);
}

export const sender = new Sender();
