/** The strip of clocks across the top: the two or three that press most, kept going without anything else being drawn. */

import { make } from "../../../parts/make";
import { DrawnClock } from "./drawn";
import type { Item } from "../../../parts/clocks/items";

const MOST = 2;

export class Strip {
  readonly element = make("div.bench-clocks");
  private readonly drawn = new Map<string, DrawnClock>();
  private order = "";

  constructor(private readonly pressed: () => void) {}

  show(items: readonly Item[]): void {
    const seen = items.slice(0, MOST);
    for (const item of seen) {
      const there = this.drawn.get(item.id);
      if (there) there.show(item);
      else this.drawn.set(item.id, new DrawnClock(item, this.pressed));
    }
    const order = seen.map((item) => item.id).join("\n");
    if (order === this.order) return;
    this.order = order;
    for (const id of this.drawn.keys()) if (!seen.some((item) => item.id === id)) this.drawn.delete(id);
    this.element.replaceChildren(...seen.map((item) => this.drawn.get(item.id)?.element ?? ""));
  }
}
