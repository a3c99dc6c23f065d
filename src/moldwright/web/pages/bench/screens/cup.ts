/** The cup in hand, drawn. */

import { make } from "../../../parts/make";
import { cup as drawn, type Poured } from "../draw/cup";
import { say } from "../../../parts/words";
import type { Cup, CupPart } from "../told";
import type { AtBench } from "./at";

export function cupOf(at: AtBench): HTMLElement | null {
  const { cup } = at.screen.view;
  if (!cup) return null;
  const words = cup.parts.map((part) => say(`part-${part.state}`, { part: part.name, total: part.total })).join(" ");
  return make("aside.bench-cup", {}, make("figure", {}, drawn(levels(cup), cup.holds_g, words), make("figcaption", {}, inCup(cup))));
}

/** How much is in, and how much may be where that is known. */
export function inCup(cup: Cup): string {
  return cup.holds ? say("holds", { in: cup.in_text, most: cup.holds }) : say("is-in", { in: cup.in_text });
}

/** The parts as they lie over each other; in a cup that was put right what is in is one level. */
function levels(cup: Cup): Poured[] {
  const inside = cup.parts.filter((part) => part.state === "in" || part.state === "over");
  const rising = inside.every((part, n) => n === 0 || part.total_g >= (inside[n - 1]?.total_g ?? 0));
  const left = cup.parts.filter((part) => !inside.includes(part)).sort((one, other) => one.total_g - other.total_g);
  const apart = rising && inside.every((part) => left.every((other) => other.total_g >= part.total_g));
  if (apart) return cup.parts.map((part) => level(part, inside.includes(part)));
  const names = inside.map((part) => part.name).join(", ");
  const mixed = { key: "mixed", name: names, add: "", reads: cup.in_text, up_to: cup.in_g, now: false, in: true };
  return [mixed, ...left.map((part) => level(part, false))];
}

function level(part: CupPart, inside: boolean): Poured {
  return {
    key: part.kind.replaceAll(" ", "-"),
    name: part.name,
    add: `+${part.mass}`,
    reads: part.total,
    up_to: part.total_g,
    now: part.state === "now",
    in: inside,
  };
}
