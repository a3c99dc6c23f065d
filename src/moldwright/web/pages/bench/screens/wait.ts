/** No hands: what cures by itself, until when, and what may be done meanwhile. */

import type { Item } from "../../../parts/clocks/items";
import { make, type Inside } from "../../../parts/make";
import { say } from "../../../parts/words";
import type { OtherAct } from "../told";
import type { AtBench } from "./at";
import { button, two } from "./buttons";

export function waiting(at: AtBench): HTMLElement {
  const { view } = at.screen;
  const waits = at.items.filter((item) => item.kind !== "cup");
  return make(
    "main.bench-say.waiting",
    { id: "main", tabindex: -1 },
    make("h1", {}, view.press === "wait" ? view.say : say("no-hands")),
    make("ul.waits", {}, waits.map((item) => line(item))),
    others(at),
  );
}

function line(item: Item): HTMLElement {
  return make("li", { "data-wait": item.id }, make("span", {}, item.label), make("b", {}, item.left), item.todo ? make("em", {}, item.todo) : null);
}

/** What else may be turned to now. */
export function others(at: AtBench): Inside {
  const now = at.screen.view.others.filter((other) => other.since === null);
  if (!now.length) return null;
  return make("section.others", {}, make("h2", {}, say("meanwhile")), now.map((other) => turnTo(at, other)));
}

export function turnTo(at: AtBench, other: OtherAct): HTMLElement {
  const small = other.turn ? say("cast", { turn: other.turn, casts: at.told.casts }) : other.begun ? say("in-hand") : "";
  return button(`turn-${other.step}-${other.turn}`, two(`${other.number}. ${other.title}`, small), () => at.turnTo(other.step, other.turn));
}
