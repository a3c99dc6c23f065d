/** Too much of a part: the ways to put it right, the best large, the others beside it or, on a phone, in rows under it. */

import { make, type Inside } from "../../../parts/make";
import { say } from "../../../parts/words";
import type { PutRight, Way } from "../told";
import type { AtBench } from "./at";
import { waitsForDesk } from "../run/steps";
import { inOrder } from "./narrow";
import { always, button, looksOnly, two } from "./buttons";
import { inCup } from "./cup";

/** Of a cup that is much too large only so much is drawn. */
const FOOT_ALONE = 1.5;

export function putRight(at: AtBench, told: PutRight, struck: string | null, take: (way: Way) => void): Node[] {
  const [first, ...others] = told.ways;
  const body = make(
    "main.put-right",
    { id: "main", tabindex: -1 },
    make("h1", {}, told.head),
    told.why ? make("p.why", {}, told.why) : null,
    make("div.ways", { inert: !at.writes }, first ? best(at, first, () => take(first)) : null, others.map((way) => lesser(at, way, () => take(way)))),
  );
  const again = others.map((way) => button(`${way.kind}-low`, label(at, way), () => take(way)));
  const foot = !at.writes ? looksOnly(at) : make("footer.bench-act.quiet-acts", {}, inOrder(always(at, struck), make("p.note", {}, say("put-right-note")), make("div.lesser-acts", {}, again)));
  return [body, foot];
}

/** While the desk is not there a way after which only it knows what is next says so. */
function label(at: AtBench, way: Way): Inside {
  return two(way.press.label, !at.online && waitsForDesk(at.screen, way.press) ? say("desk-next") : "");
}

function best(at: AtBench, way: Way, take: () => void): HTMLElement {
  const next = way.then[0];
  const figure = next?.figure
    ? [make("h2", {}, next.say), make("p.big", {}, next.figure, make("span.unit", {}, next.unit), make("span.beside", {}, say("on-scale")))]
    : make("h2", {}, way.title);
  return make("section.way.best", {}, figure, bar(way), lines(way.lines), button(way.kind, label(at, way), take, true));
}

function lesser(at: AtBench, way: Way, take: () => void): HTMLElement {
  return make("section.way", {}, make("h2", {}, way.title), lines(way.lines), button(way.kind, label(at, way), take));
}

function lines(told: readonly string[]): Inside {
  return told.map((line) => make("p", {}, line));
}

/** What is in, what is still to come, and how much the cup may hold, lying. */
function bar(way: Way): Inside {
  const { cup } = way;
  if (!cup) return null;
  const whole = Math.max(cup.in_g, ...cup.parts.map((part) => part.total_g));
  const top = Math.max(whole, Math.min(cup.holds_g, whole * FOOT_ALONE));
  const part = (kind: string, mass_g: number): HTMLElement => {
    const box = make(`span.share${kind}`);
    box.style.width = `${(100 * mass_g) / top}%`;
    return box;
  };
  const words = inCup(cup);
  const drawn = make("div.bar-of", { "aria-hidden": "true" }, part("", cup.in_g), part(".add", whole - cup.in_g));
  return make("figure.shares", {}, drawn, make("figcaption", {}, words));
}
