/** Which screen it is, and how it comes onto the page: drawn anew as a whole, with the reader's place kept. */

import type { Item } from "../../../parts/clocks/items";
import { make } from "../../../parts/make";
import { say } from "../../../parts/words";
import type { Near } from "../run/steps";
import type { Way } from "../told";
import type { AtBench, Form } from "./at";
import { actRow, button, smallOf, two } from "./buttons";
import { cautionScreen, hurts } from "./caution";
import { cupOf } from "./cup";
import { cautions, found, log, lots, more, otherSteps } from "./more";
import { FarClock, pour } from "./pour";
import { putRight } from "./put-right";
import { lines, sayOf, side } from "./say";
import { top } from "./top";
import { upright } from "../draw/wall";
import { waiting } from "./wait";
import { layersOf, wallWords } from "./wall";
import { judge, thenActs } from "./weigh";

/** What lies over it, what went wrong, what Strike out takes. */
export interface Laid {
  readonly form: Form | null;
  readonly over: HTMLElement | null;
  readonly refused: string;
  readonly noted: string;
  readonly struck: string | null;
}

export interface Taking {
  way(way: Way): void;
  seen(caution: string): boolean;
  see(caution: string): void;
}

const FORMS: Readonly<Record<string, (at: AtBench) => HTMLElement>> = { more, others: otherSteps, lots, log, found, sheets: cautions };

export class Drawing {
  private readonly far = new FarClock();
  private readonly tray = document.createElement("mw-tray");
  private shown = "";
  private opened = "";
  private openedBy: string | undefined;

  constructor(
    private readonly on: HTMLElement,
    private readonly clocks: HTMLElement,
    private readonly status: HTMLElement,
  ) {
    const words = document.getElementById("bench-tray")?.dataset ?? {};
    Object.assign(this.tray.dataset, words);
  }

  show(at: AtBench, laid: Laid, taking: Taking): void {
    const focus = document.activeElement instanceof HTMLElement ? document.activeElement.dataset["key"] : undefined;
    const parts = laid.form ? this.form(at, laid) : this.screen(at, laid, taking);
    const refused = laid.refused ? make("p.refused", { role: "alert" }, laid.refused) : null;
    this.on.dataset["screen"] = laid.form?.form ?? this.shown;
    const noted = laid.noted && this.on.dataset["screen"] !== "put-right" ? make("p.noted", { role: "status" }, laid.noted) : null;
    this.on.replaceChildren(...[top(at, this.clocks, this.tray), ...parts, refused, noted, this.status].filter((part) => part !== null));
    this.reachable();
    const opened = laid.form?.form ?? "";
    if (opened !== this.opened) this.moveFocus(opened, focus);
    else if (focus) this.on.querySelector<HTMLElement>(`[data-key="${CSS.escape(focus)}"]`)?.focus({ preventScroll: true });
  }

  /** What is longer than the screen is scrolled by the keyboard too. */
  private reachable(): void {
    const longer = [...this.on.querySelectorAll<HTMLElement>("aside, .lines, main > .heedful")].filter((each) => each.scrollHeight > each.clientHeight);
    for (const each of [...this.on.querySelectorAll<HTMLElement>("main"), ...longer]) each.tabIndex = 0;
  }

  /** Into what was laid over the work, and back to where it was opened. */
  private moveFocus(opened: string, from: string | undefined): void {
    if (opened && !this.opened) this.openedBy = from;
    this.opened = opened;
    const to = opened ? this.on.querySelector<HTMLElement>(".laid-over") : this.on.querySelector<HTMLElement>(`[data-key="${CSS.escape(this.openedBy ?? "")}"]`);
    to?.focus({ preventScroll: true });
  }

  /** The clock that is the screen goes on. */
  tick(items: readonly Item[]): void {
    const far = items.find((item) => item.far);
    if (far) this.far.show(far);
    for (const item of items) {
      const line = this.on.querySelector(`[data-wait="${CSS.escape(item.id)}"] b`);
      if (line && line.textContent !== item.left) line.textContent = item.left;
    }
  }

  private form(at: AtBench, laid: Laid): HTMLElement[] {
    if (laid.over) return [laid.over];
    const drawn = FORMS[laid.form?.form ?? ""];
    return drawn ? [drawn(at)] : [];
  }

  private screen(at: AtBench, laid: Laid, taking: Taking): Node[] {
    const { act, press, put_right } = at.screen.view;
    const put = at.screen.put_right ?? (at.screen.then ? null : put_right);
    if (act && at.step && hurts(at.step) && !taking.seen(act.step) && !open(at)) {
      this.shown = "caution";
      return cautionScreen(at, at.step, () => taking.see(act.step));
    }
    if (at.screen.beyond) return this.beyond(at, laid);
    if (put) {
      this.shown = "put-right";
      return [wall(at), ...putRight(at, put, laid.struck, taking.way)];
    }
    const far = at.items.find((item) => item.far);
    if (press === "lay" && far) return this.pour(at, far, laid);
    return this.usual(at, laid);
  }

  private pour(at: AtBench, far: Item, laid: Laid): Node[] {
    this.shown = "pour";
    this.far.show(far);
    this.on.dataset["stage"] = far.stage;
    return [...pour(at, this.far), actRow(at, laid.struck, this.presses(at))];
  }

  private usual(at: AtBench, laid: Laid): Node[] {
    const { view, then } = at.screen;
    const waits = view.press === "wait" || (at.screen.not_before_ms ?? 0) > at.now();
    this.shown = waits ? "wait" : then ? "then" : view.press;
    if (waits) return [wall(at), waiting(at), actRow(at, laid.struck, null)];
    const weighs = view.press === "weigh" && !then;
    const body = sayOf(at, view.press === "weigh" ? null : lines(at.step));
    const acts = then ? thenActs(at) : weighs ? judge(at) : this.presses(at);
    const kind = weighs && view.limits ? "judge" : "";
    return [wall(at), body, cupOf(at) ?? side(at), actRow(at, laid.struck, acts, kind)];
  }

  private presses(at: AtBench): HTMLElement[] {
    return at.screen.view.presses.map((press) => {
      const made = button(press.id, two(press.label, smallOf(at, press)), () => at.press(press), press.main);
      if (press.online && !at.online) made.setAttribute("disabled", "");
      return made;
    });
  }

  /** Kept, and what to do is told of the next reading that one can pour on to. */
  private near(at: AtBench, near: Near, laid: Laid): Node[] {
    const { reads } = near.row;
    const body = make("main.bench-say", { id: "main", tabindex: -1 }, make("h1", {}, say("pour-on", { reads })));
    const act = button("reads-now", say("reads-now", { reads }), () => at.pourOn(near), true);
    return [wall(at), body, cupOf(at) ?? side(at), actRow(at, laid.struck, act)];
  }

  /** Kept, and only the server knows what is next. */
  private beyond(at: AtBench, laid: Laid): Node[] {
    this.shown = "beyond";
    const { near } = at.screen;
    if (near && !at.online) return this.near(at, near, laid);
    const words = at.online ? say("asking") : say("beyond");
    const body = make("main.bench-say", { id: "main", tabindex: -1 }, make("h1", {}, words), at.online ? null : make("p.more", {}, say("beyond-more")));
    return [wall(at), body, actRow(at, laid.struck, null)];
  }
}

/** Whether its cup is open already: what gels meanwhile waits for no reader. Its cautions stand on its screen. */
function open(at: AtBench): boolean {
  const { press, cup, clocks } = at.screen.view;
  return press === "put-right" || (cup !== null && cup.in_g > 0) || (press === "done" && clocks.length > 0);
}

function wall(at: AtBench): HTMLElement {
  const layers = layersOf(at);
  return make("aside.bench-wall", {}, layers.length ? upright(layers, wallWords(at)) : null);
}
