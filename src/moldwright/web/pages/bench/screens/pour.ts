/** A resin that is past use in minutes: its clock is the screen. */

import { clockRule } from "../../../parts/clocks/rule";
import type { Item } from "../../../parts/clocks/items";
import { draw, make } from "../../../parts/make";
import { say } from "../../../parts/words";
import type { AtBench } from "./at";
import { cautionOf, firstAid, sheetLine, signs } from "./caution";
import { pouring } from "../draw/pour";

export class FarClock {
  readonly element = make("section.far-clock", { role: "timer", "aria-live": "off" });
  private readonly head = make("h1");
  private readonly left = make("p.big");
  private readonly rule = draw("svg.rule", { "aria-hidden": "true" });

  constructor() {
    this.element.append(this.head, this.left, this.rule);
  }

  show(item: Item): void {
    const head = item.todo || say("pour-now");
    if (this.head.textContent !== head) this.head.textContent = head;
    if (this.left.textContent !== item.left) this.left.textContent = item.left;
    this.element.setAttribute("aria-label", `${head} ${item.left}`);
    this.rule.replaceChildren(...clockRule(item));
  }
}

/** Which way up the mold stands, and where the stream goes in. */
export function pourFigure(at: AtBench): HTMLElement | null {
  const pour = at.screen.view.cup?.pour ?? "";
  if (!pour) return null;
  const words = say(`pour-${pour}`);
  return make("figure.pour-figure", {}, pouring(pour, words), make("figcaption", { "aria-hidden": "true" }, words));
}

export function pour(at: AtBench, clock: FarClock): Node[] {
  const { view } = at.screen;
  const body = make(
    "main.clock-screen",
    { id: "main", tabindex: -1 },
    clock.element,
    make("div.below", {}, make("p.more", {}, view.say), view.more ? make("p.small-more", {}, view.more) : null),
  );
  const step = at.step;
  const hazards = step?.cautions.filter((each) => each.hazard).slice(0, 2) ?? [];
  const side = make(
    "aside.pour-side",
    {},
    pourFigure(at),
    step ? signs(step.pictograms) : null,
    hazards.map((each) => cautionOf(each.severity, each.text)),
    step ? firstAid(step, hazards) : null,
    step?.sheets.some((each) => each.file) ? sheetLine(at) : null,
  );
  return [body, side];
}
