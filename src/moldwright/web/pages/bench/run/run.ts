/** A run on this device: what the server told of it, what was pressed since, what is written and where that goes. */

import { keep, type Happened, type NewEntry } from "../../../parts/outbox/entries";
import { newId } from "../../../parts/time/uuid7";
import type { ServerTime } from "../../../parts/time/servertime";
import type { Template, Told } from "../told";
import { keepRun, kept, type KeptRun } from "./keeping";
import { screenOf, type Screen, type Step } from "./steps";

const MOST_TO_STRIKE = 40;
/** Each goes along with every call; the server takes 200 (`place.py`). */
const MOST_PASSED = 100;

/** A step without what is filled in when it is made. */
export type NewStep = Step extends infer Each ? (Each extends Step ? Omit<Each, "at_ms" | "ids" | "lines" | "words"> : never) : never;

export interface ToWrite {
  readonly events: readonly Template[];
  readonly words: string;
  readonly photo?: Blob;
}

export type Place = Pick<KeptRun, "run" | "told" | "steps" | "mine" | "seen" | "skipped" | "chosen">;

/** Dispatches "change" whenever the screen may be another one. */
export class Run extends EventTarget {
  private at: Place;
  private saving: Promise<void> = Promise.resolve();
  /** When something was last pressed here, by the device's steady clock [ms]. */
  wrote = 0;
  private writing = false;

  constructor(
    told: Told,
    readonly time: ServerTime,
    private readonly who: Pick<Happened, "bench" | "by">,
  ) {
    super();
    this.at = { run: told.run, told, steps: [], mine: [], seen: [], skipped: [] };
  }

  /** What was kept of it on this device: where the server was not asked since, it goes on from there. */
  async recall(waiting: boolean): Promise<void> {
    const before = await kept(this.at.run).catch(() => undefined);
    if (!before) return this.changed();
    const older = before.told.now_ms >= this.at.told.now_ms || waiting;
    this.at = older ? before : { ...before, told: this.at.told, steps: [] };
    this.changed();
  }

  get told(): Told {
    return this.at.told;
  }

  get screen(): Screen {
    return screenOf(this.at.told, this.at.steps, this.time.now());
  }

  get skipped(): Place["skipped"] {
    return this.at.skipped;
  }

  /** What Strike out takes: what was pressed here last, else what the server says. */
  get strikes(): { readonly ids: readonly string[]; readonly words: string } | null {
    const last = this.at.mine.at(-1);
    if (last) return last;
    const told = this.at.told.strikes;
    return told?.ids.length ? { ids: [...told.ids].reverse(), words: told.text } : null;
  }

  /** The server told anew, and nothing from here waits: its word counts. */
  take(told: Told): void {
    const gone = new Set(told.log.filter((entry) => entry.gone).map((entry) => entry.id));
    const mine = this.at.mine.filter((step) => !step.ids.every((id) => gone.has(id)));
    this.at = { ...this.at, told, mine, steps: [] };
    this.changed();
  }

  /** Written down and on this device's disk; then the screen goes on. A press while another is written counts nothing. */
  async write(write: ToWrite, step: NewStep): Promise<void> {
    const at_ms = this.time.now();
    const events = write.events.map((template): Happened => ({ ...template, ...this.who, id: newId(at_ms), at_ms }));
    const lined = events.filter((event) => event.kind === "undone").map((event) => String(event.body["event"]));
    const ids = events.filter((event) => event.kind !== "undone").map((event) => event.id);
    const made = { ...step, at_ms, ids, lines: lined, words: write.words } as Step;
    const photo = write.photo ? { photo: write.photo } : {};
    await this.once(events.map((event) => ({ run: this.at.run, event, words: write.words, ...photo })), () => {
      const stands = this.at.mine.filter((each) => !each.ids.some((id) => lined.includes(id)));
      const mine = made.ids.length ? [...stands, made].slice(-MOST_TO_STRIKE) : stands;
      this.at = { ...this.at, steps: [...this.at.steps, made], mine };
    });
  }

  /** A line through what was pressed last; where that was since the server told, the screen is the one before. */
  async strike(): Promise<void> {
    const struck = this.strikes;
    if (!struck) return;
    const at_ms = this.time.now();
    const lines = [...struck.ids].reverse().map((id): NewEntry => {
      const event = { ...this.who, id: newId(at_ms), kind: "undone", at_ms, body: { event: id, why: "" } };
      return { run: this.at.run, event, words: struck.words };
    });
    await this.once(lines, () => {
      const here = this.at.steps.findLastIndex((step) => step.ids.some((id) => struck.ids.includes(id)));
      const steps = here >= 0 ? before(this.at.steps, here) : [...this.at.steps, beyond(at_ms, struck.words)];
      this.at = { ...this.at, steps, mine: this.at.mine.slice(0, -1) };
    });
  }

  private async once(entries: readonly NewEntry[], then: () => void): Promise<void> {
    if (this.writing) return;
    this.writing = true;
    try {
      if (entries.length) await keep(entries);
      this.wrote = performance.now();
      then();
    } finally {
      this.writing = false;
    }
    this.changed();
  }

  /** A press is being written: the screen that follows it is not there yet, and the one before is over. */
  get busy(): boolean {
    return this.writing;
  }

  /** A caution was read. */
  see(caution: string): void {
    this.at = { ...this.at, seen: [...this.at.seen, caution] };
    this.changed();
  }

  seen(caution: string): boolean {
    return this.at.seen.includes(caution);
  }

  /** A lot that somebody took; the last one of a material counts. */
  choose(lot: string): void {
    this.at = { ...this.at, chosen: [...this.chosen.filter((each) => each !== lot), lot].slice(-MOST_TO_STRIKE) };
    this.changed();
  }

  get chosen(): readonly string[] {
    return this.at.chosen ?? [];
  }

  /** A box that nothing is written in; of those of acts that are done long since nobody asks any more. */
  skip(step: string, turn: number, key: string): void {
    const passed = [...this.at.skipped, [step, turn, key] as const];
    this.at = { ...this.at, skipped: passed.slice(-MOST_PASSED) };
  }

  private changed(): void {
    const { at } = this;
    this.saving = this.saving.then(() => keepRun(at)).catch(() => undefined);
    this.dispatchEvent(new Event("change"));
  }
}

/** The steps before one; a reading whose place a later one had taken is struck out already. */
function before(steps: readonly Step[], here: number): readonly Step[] {
  const lined = steps.slice(here).flatMap((step) => step.lines ?? []);
  return steps.slice(0, here).filter((step) => !step.ids.some((id) => lined.includes(id)));
}

function beyond(at_ms: number, words: string): Step {
  return { did: "beyond", at_ms, ids: [], words };
}
