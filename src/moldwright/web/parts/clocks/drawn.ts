/** A clock as a rule, with its words and the time that is left; made once, then kept going. */

import { draw, make } from "../make";
import type { Item } from "./items";
import { clockRule, windowRule } from "./rule";

/** It fills an empty element of whoever shows it. */
export class DrawnClock {
  private readonly label = make("span.label");
  private readonly left = make("span.left");
  private readonly rule = draw("svg.rule", { "aria-hidden": "true" });
  private stage = "";

  constructor(
    item: Item,
    readonly element: HTMLElement,
  ) {
    element.setAttribute("role", "timer");
    element.setAttribute("aria-live", "off");
    element.append(this.label, this.left, this.rule);
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

/** Clocks by the items' ids, in their order, most of them kept from one moment to the next. */
export class DrawnClocks {
  private readonly drawn = new Map<string, DrawnClock>();
  private order = "";

  constructor(
    private readonly into: Element,
    private readonly frame: () => HTMLElement,
  ) {}

  show(items: readonly Item[]): void {
    for (const item of items) {
      const there = this.drawn.get(item.id);
      if (there) there.show(item);
      else this.drawn.set(item.id, new DrawnClock(item, this.frame()));
    }
    const order = items.map((item) => item.id).join("\n");
    if (order === this.order) return;
    this.order = order;
    for (const id of this.drawn.keys()) if (!items.some((item) => item.id === id)) this.drawn.delete(id);
    this.into.replaceChildren(...items.map((item) => this.drawn.get(item.id)?.element ?? ""));
  }
}
