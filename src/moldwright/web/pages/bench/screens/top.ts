/** The strip across the top: which piece, what is in hand, the clocks, the way out. */

import { make } from "../../../parts/make";
import { chip } from "../draw/wall";
import { say } from "../../../parts/words";
import type { AtBench } from "./at";
import { inOrder } from "./narrow";
import { capital } from "../../../parts/capital";
import { layersOf } from "./wall";

/** `clocks` and `tray` are kept going by others. */
export function top(at: AtBench, clocks: HTMLElement, tray: HTMLElement): HTMLElement {
  const layer = layersOf(at).find((each) => each.now);
  const who = make(
    "div.bench-who",
    {},
    make("span", {}, at.told.piece),
    make("div.in-hand", {}, layer ? chip(layer) : null, make("span", {}, inHand(at))),
    tray,
  );
  const leave = make("a.button.leave", { href: "/bench", "data-key": "leave" }, say("leave"));
  return make("header.bench-top", {}, who, inOrder(clocks, leave));
}

function inHand(at: AtBench): string {
  const { act, cup } = at.screen.view;
  if (!act) return "";
  const cast = act.turn ? say("cast", { turn: act.turn, casts: act.casts }) : "";
  const name = cup ? capital(cup.name) : say("step", { number: act.number, title: at.step?.title ?? "" });
  return [cast && !cup ? cast : "", name].filter(Boolean).join(", ");
}
