/** Clocks as rules, with the words and the time that is left; made once, then kept going. */

import { clockRule, windowRule } from "../../../parts/clocks/rule";
import { draw, make } from "../../../parts/make";
import type { Item } from "../../../parts/clocks/items";

/** One in the strip. Pressed, it is known: it knocks no more. */
export class DrawnClock {
  readonly element: HTMLElement;
  private readonly label = make("span.label");
  private readonly left = make("span.left");
  private readonly rule = draw("svg.rule", { "aria-hidden": "true" });
  private stage = "";

  constructor(item: Item, pressed: () => void) {
    this.element = make("button.bench-clock", { type: "button", role: "timer", "aria-live": "off" }, this.label, this.left, this.rule);
    this.element.addEventListener("click", pressed);
    this.show(item);
  }

  show(item: Item): void {
    const label = item.todo ? `${item.name}: ${first(item.todo)}` : item.label;
    if (this.left.textContent !== item.left) this.left.textContent = item.left;
    if (this.label.textContent !== label) this.label.textContent = label;
    if (this.stage !== item.stage) {
      this.stage = item.stage;
      this.element.dataset["stage"] = item.stage;
      this.element.setAttribute("aria-label", `${item.label}: ${item.left} ${item.todo}`);
    }
    this.rule.replaceChildren(...(item.kind === "window" ? windowRule(item) : clockRule(item)));
  }
}

/** The first sentence; the rest stands where there is room for it. */
function first(told: string): string {
  return /^.*?[.:;](?=\s|$)/.exec(told)?.[0] ?? told;
}
