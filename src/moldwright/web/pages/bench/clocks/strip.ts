/** The strip of clocks across the top: the two or three that press most, kept going without anything else being drawn.
 * One that is pressed is known: it knocks no more. */

import { DrawnClocks } from "../../../parts/clocks/drawn";
import type { Item } from "../../../parts/clocks/items";
import { make } from "../../../parts/make";

const MOST = 2;

export class Strip {
  readonly element = make("div.bench-clocks");
  private readonly drawn = new DrawnClocks(this.element, () => this.frame());

  constructor(private readonly pressed: () => void) {}

  show(items: readonly Item[]): void {
    this.drawn.show(items.slice(0, MOST));
  }

  private frame(): HTMLElement {
    const made = make("button.bench-clock", { type: "button" });
    made.addEventListener("click", this.pressed);
    return made;
  }
}
