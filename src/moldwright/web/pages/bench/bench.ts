/** The bench on a screen: draws what the run asks for, keeps its clocks going, takes what is pressed. */

import { changes, waitingOf } from "../../parts/outbox/entries";
import { sender, type Taken } from "../../parts/outbox/sending";
import { Refused, send } from "../../parts/send";
import { ServerTime } from "../../parts/time/servertime";
import { Alarms } from "./clocks/alarms";
import { items, resting, turns, type Item } from "../../parts/clocks/items";
import { knock, wakeSound } from "./clocks/sound";
import { Strip } from "./clocks/strip";
import { stayAwake } from "../../parts/awake";
import { watchKeys } from "./hand/keys";
import { pressing, watchTouches } from "./hand/press";
import { Asking } from "./run/asking";
import { doPourOn, doPress, doReading, doWay } from "./run/doing";
import { Run } from "./run/run";
import { say } from "../../parts/words";
import { asking, reading, type Asking as Question } from "./screens/ask";
import type { AtBench, Form } from "./screens/at";
import { Drawing } from "./screens/drawing";
import { whenTurned } from "./screens/narrow";
import type { Press, Told, Way } from "./told";

const TICK_MS = 200;

export class Bench extends HTMLElement {
  private readonly time = new ServerTime(() => send("GET", "/api/time"));
  private readonly strip = new Strip(() => this.alarms.pressed());
  private readonly alarms = new Alarms((kind) => knock(kind));
  private readonly status = document.createElement("p");
  private run!: Run;
  private asks!: Asking;
  private drawing!: Drawing;
  private form: Form | null = null;
  private question: Question | null = null;
  private refused = "";
  /** What the desk says of what was pressed; it stands until the next press. */
  private noted = "";
  private stages = new Map<string, string>();
  private drawn = "";
  /** It could not be drawn while a finger was on it. */
  private late = false;

  connectedCallback(): void {
    const told = document.getElementById("bench-told")?.textContent;
    if (told) void this.begin(JSON.parse(told) as Told);
  }

  private async begin(told: Told): Promise<void> {
    this.run = new Run(told, this.time, { bench: this.dataset["device"] ?? "", by: this.dataset["by"] ?? "" });
    this.asks = new Asking(this.run);
    this.status.className = "unseen";
    this.status.setAttribute("role", "status");
    this.drawing = new Drawing(this, this.strip.element, this.status);
    this.run.addEventListener("change", () => this.draw());
    sender.addEventListener("state", () => this.draw());
    sender.addEventListener("taken", (event) => this.taken((event as CustomEvent<Taken>).detail));
    changes.addEventListener("change", () => this.draw());
    whenTurned(() => this.draw());
    await this.run.recall((await waitingOf(told.run)).length > 0);
    this.time.start();
    this.asks.start();
    watchTouches(document);
    watchKeys(document, { digit: (key) => this.question?.pad?.key(key) ?? false, main: () => this.main(), strike: () => this.form || this.strike(), close: () => this.form && this.open(null) });
    document.addEventListener("click", () => this.pressedAny(), { capture: true });
    stayAwake();
    setInterval(() => this.tick(), TICK_MS);
    this.time.addEventListener("set", () => this.tick());
  }

  private taken({ run, notes }: Taken): void {
    if (run !== this.run.told.run || !notes.length) return;
    this.noted = notes.join(" ");
    this.draw();
  }

  private pressedAny(): void {
    wakeSound();
    this.alarms.pressed();
  }

  private main(): void {
    if (this.question) this.question.main();
    else this.querySelector<HTMLElement>("button.do:not([disabled])")?.click();
  }

  private at(): AtBench {
    const { screen, told } = this.run;
    return {
      told, screen, items: this.clocks(),
      writes: this.dataset["reads"] === undefined,
      step: screen.view.act ? (told.steps[screen.view.act.step] ?? null) : null,
      online: sender.way === "open",
      now: () => this.time.now(),
      press: (press) => void this.press(press),
      open: (form) => this.open(form),
      strike: () => this.strike(),
      pourOn: (near) => void this.tried(() => doPourOn(this.run, near)),
      registerMold: () => void this.registerMold(),
      choose: (lot) => this.choose(lot),
      photo: (file) => void this.photo(file),
      turnTo: (step, turn) => void this.turnTo(step, turn),
    };
  }

  /** What runs, and behind it the cup in hand whose parts have not met. */
  private clocks(): Item[] {
    const { view, presses } = this.run.screen;
    const rests = view.cup?.out_in_ms ? [resting(view.cup.name, view.cup.out_in_ms)] : [];
    const all = [...items(view, presses, this.time.now()), ...rests];
    return this.time.inDoubt ? all.map((item) => ({ ...item, label: say("in-doubt", { clock: item.label }) })) : all;
  }

  private open(form: Form | null): void {
    this.form = form;
    this.question = null;
    this.draw();
  }

  private strike(): void {
    if (this.dataset["reads"] !== undefined) return;
    this.form = null;
    void this.tried(() => this.run.strike());
  }

  /** What it asks for is asked first, one after the other. */
  private async press(press: Press, answers: Readonly<Record<string, string>> = {}): Promise<void> {
    const ask = press.asks.find((each) => !(each.field in answers));
    if (ask && this.run.screen.view.limits && (press.id === "short" || press.id === "over")) return this.open({ form: "reading", press });
    if (ask) return this.open({ form: "ask", press, n: press.asks.indexOf(ask), answers });
    this.form = this.question = null;
    if (press.online) return this.online(press, answers);
    await this.tried(() => doPress(this.run, press, answers));
    if (!press.events.length) await this.asks.now();
  }

  private way(way: Way): void {
    void this.tried(() => doWay(this.run, way)).then(() => this.asks.now());
  }

  /** What only the store can say: the number of a cast. */
  private async online(press: Press, answers: Readonly<Record<string, string>>): Promise<void> {
    const { act } = this.run.screen.view;
    const body = { step: act?.step, turn: act?.turn, which: press.id, ...answers };
    await this.tried(async () => {
      await send("POST", `/api/bench/${this.run.told.run}/number`, body);
      await this.asks.now();
    });
  }

  private async registerMold(): Promise<void> {
    this.form = null;
    await this.tried(async () => {
      await send("POST", `/api/bench/${this.run.told.run}/mold`, {});
      await this.asks.now();
    });
  }

  private async photo(file: Blob): Promise<void> {
    const { act } = this.run.screen.view;
    const body = { file: "", text: "", step: act?.step ?? "", turn: act?.turn ?? 0 };
    this.form = null;
    await this.tried(() => this.run.write({ events: [{ kind: "attached", body }], words: say("photo"), photo: file }, { did: "stay" }));
  }

  private choose(lot: string): void {
    this.run.choose(lot);
    this.open(null);
    void this.asks.now();
  }

  private async turnTo(step: string, turn: number): Promise<void> {
    this.asks.wanted = { step, turn };
    this.form = null;
    await this.asks.now();
    this.draw();
  }

  /** What does not work is said, and nothing is lost. */
  private async tried(act: () => Promise<void>): Promise<void> {
    this.refused = this.noted = "";
    try {
      await act();
    } catch (error) {
      this.refused = error instanceof Refused ? [error.said.found, error.remedy].filter(Boolean).join(". ") : say("not-kept");
    }
    this.draw();
  }

  private draw(): void {
    if (!this.drawing || this.run.busy) return;
    this.late = pressing();
    if (this.late) return;
    const at = this.at();
    if (!this.question) this.question = this.ask(at);
    const over = this.question?.element ?? null;
    this.drawing.show(at, { form: this.form, over, refused: this.refused, noted: this.noted, struck: this.run.strikes?.words ?? null }, {
      way: (way) => this.way(way),
      seen: (name) => this.run.seen(name),
      see: (name) => this.run.see(name),
    });
    this.strip.show(this.inStrip(at.items));
    this.dataset["ahead"] = String(this.run.told.ahead.length);
    this.drawn = this.mode();
  }

  /** The clock that is the screen stands in no strip, nor beside it what waits. */
  private inStrip(now: readonly Item[]): readonly Item[] {
    return this.dataset["screen"] === "pour" ? now.filter((item) => item.kind === "cup" && !item.far) : now;
  }

  private ask(at: AtBench): Question | null {
    const { form } = this;
    if (form?.form === "reading") {
      const ask = form.press.asks[0];
      if (!ask) return null;
      return reading(at, ask, (typed, value, as) => {
        this.form = this.question = null;
        void this.tried(() => doReading(this.run, form.press, typed, value, as));
      });
    }
    if (form?.form !== "ask") return null;
    const ask = form.press.asks[form.n];
    return ask ? asking(at, ask, (typed) => this.answered(form, ask.field, typed)) : null;
  }

  private answered(form: Extract<Form, { form: "ask" }>, field: string, typed: string): void {
    this.question = null;
    void this.press(form.press, { ...form.answers, [field]: typed });
  }

  /** Clocks go on; what changes by time alone is drawn anew, and asked for. */
  private tick(): void {
    const now_ms = this.time.now();
    const now = this.clocks();
    this.strip.show(this.inStrip(now));
    this.drawing.tick(now);
    for (const item of now) this.stage(item, now_ms);
    if (this.late || this.mode() !== this.drawn) this.draw();
    if (turns(this.run.screen.view, this.run.screen.presses, this.run.told.now_ms).some((ms) => ms <= now_ms && ms > this.turned_ms)) void this.asks.now();
    this.turned_ms = now_ms;
  }
  private turned_ms = 0;

  private stage(item: Item, now_ms: number): void {
    const sounds = item.stage === "closing" ? "last fifth" : item.stage === "too late" ? "past" : item.stage;
    if (item.kind !== "wait") this.alarms.told(item.id, sounds === "last fifth" || sounds === "past" ? sounds : "running", now_ms);
    if (this.stages.get(item.id) === item.stage) return;
    this.stages.set(item.id, item.stage);
    if (item.stage !== "rest") this.status.textContent = `${item.label}: ${item.left} ${item.todo}`;
  }

  /** Which sort of screen it is, as far as time alone changes it. */
  private mode(): string {
    const { screen } = this.run;
    const now = this.clocks();
    return [screen.view.press, (screen.not_before_ms ?? 0) > this.time.now(), screen.view.act?.name, now.some((item) => item.far), now.map((item) => `${item.id}${item.todo}`), sender.way].join();
  }
}
