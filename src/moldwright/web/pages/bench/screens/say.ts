/** What is said large: the sentence, the figure, what is more, the lines of the step, and what is to be heeded. */

import { make, type Inside } from "../../../parts/make";
import { lying } from "../draw/wall";
import { say } from "../../../parts/words";
import type { Step, View } from "../told";
import { cautionOf, stepCautions } from "./caution";
import type { AtBench } from "./at";
import { layersOf, wallWords } from "./wall";

const LONG = 6;

export function sayOf(at: AtBench, beside: Inside = null): HTMLElement {
  const { view } = at.screen;
  return make(
    "main.bench-say",
    { id: "main", tabindex: -1 },
    wallLying(at),
    make("h1", {}, at.screen.then?.say ?? view.say),
    figure(at),
    view.more && !at.screen.then ? make("p.more", {}, view.more) : null,
    ladder(view),
    beside,
    at.screen.view.cup ? heedful(at) : null,
  );
}

/** Beside the sentences of a step that has no cup in hand: what is to be heeded. */
export function side(at: AtBench): HTMLElement {
  return make("aside.bench-side", {}, heedful(at), at.step?.first_aid ? make("p.first-aid", {}, at.step.first_aid) : null);
}

function wallLying(at: AtBench): Inside {
  const layers = layersOf(at);
  return layers.length ? lying(layers, wallWords(at)) : null;
}

function figure(at: AtBench): Inside {
  const { then, view } = at.screen;
  const [text, unit] = then ? [then.figure, then.unit] : [view.figure?.text ?? "", view.figure?.unit ?? ""];
  if (!text) return null;
  const scale = view.cup?.parts.find((part) => part.state === "now")?.by === "scale" || then !== null;
  return make(
    text.length > LONG ? "p.big.long" : "p.big",
    {},
    text,
    make("span.unit", {}, unit),
    scale ? make("span.beside", {}, say("on-scale")) : null,
  );
}

/** On a phone, in the place of the cup. */
function ladder(view: View): Inside {
  if (!view.cup || view.press !== "weigh") return null;
  const parts = view.cup.parts.map((part) =>
    make("li", { "data-state": part.state }, make("b", {}, part.total), make("span", {}, part.name)),
  );
  return make("ol.ladder", {}, parts);
}

/** The sentences of a step: what is looked at before, then what is done. */
export function lines(step: Step | null): Inside {
  if (!step) return null;
  const all = [...step.before, ...step.do, ...(step.lift ? [step.lift] : [])];
  return all.length ? make("ul.lines", {}, all.map((line) => make("li", {}, line))) : null;
}

function heedful(at: AtBench): Inside {
  const past = at.items.filter((item) => item.todo).map((item) => cautionOf("stop", `${item.name}: ${item.todo}`));
  const heeds = [...past, ...at.screen.view.heed.map((line) => cautionOf("heed", line))];
  const own = stepCautions(at);
  return heeds.length || own.length ? make("div.heedful", {}, heeds, own) : null;
}
