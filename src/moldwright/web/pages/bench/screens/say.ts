/** What is said large: the sentence, the figure, what is more, the lines of the step, and what is to be heeded. */

import { make, type Inside } from "../../../parts/make";
import { lying } from "../draw/wall";
import { say } from "../../../parts/words";
import type { Step, Table, View } from "../told";
import { cautionOf, firstAid, shownCautions, stepCautions } from "./caution";
import type { AtBench } from "./at";
import { pourFigure } from "./pour";
import { layersOf, wallWords } from "./wall";

/** A digit's and the unit's width in the figure's size, and what stands behind it: so that the figure fits. */
const WIDE_EM = 0.56;
const UNIT_EM = 0.6;
const BESIDE_REM = 6;

export function sayOf(at: AtBench, beside: Inside = null): HTMLElement {
  const { view } = at.screen;
  return make(
    "main.bench-say",
    { id: "main", tabindex: -1 },
    wallLying(at),
    make("h1", {}, at.screen.then?.say ?? view.say),
    figure(at),
    more(at),
    ladder(view),
    view.press === "lay" ? pourFigure(at) : null,
    beside,
    at.screen.view.cup ? heedful(at) : null,
  );
}

function more({ screen }: AtBench): Inside {
  if (screen.then) return null;
  const told = screen.some ? say("some-in", { some: screen.some.text }) : screen.view.more;
  return told ? make("p.more", {}, told) : null;
}

/** Beside the sentences of a step that has no cup in hand: what is to be heeded. */
export function side(at: AtBench): HTMLElement {
  return make("aside.bench-side", {}, heedful(at), at.step ? firstAid(at.step, shownCautions(at)) : null);
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
  const made = make("p.big", {}, text, make("span.unit", {}, unit), scale ? make("span.beside", {}, say("on-scale")) : null);
  made.style.setProperty("--fits", `calc((100cqi - ${BESIDE_REM}rem) / ${(WIDE_EM * text.length + UNIT_EM).toFixed(2)})`);
  return made;
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
  const told = [...all.map((line) => make("li", {}, line)), ...step.tables.map((table) => make("li", {}, tableOf(table)))];
  return told.length ? make("ul.lines", {}, told) : null;
}

/** What the sheet prints under the step's lines. */
function tableOf(table: Table): HTMLElement {
  const cell = (tag: string, text: string, k: number) => make(k < table.words ? tag : `${tag}.num`, {}, text);
  return make(
    "table",
    {},
    make("caption", {}, table.title),
    make("thead", {}, make("tr", {}, table.head.map((text, k) => cell("th", text, k)))),
    make("tbody", {}, table.rows.map((row) => make("tr", {}, row.map((text, k) => cell("td", text, k))))),
  );
}

function heedful(at: AtBench): Inside {
  const past = at.items.filter((item) => item.todo).map((item) => cautionOf("stop", `${item.name}: ${item.todo}`));
  const heeds = [...past, ...at.screen.view.heed.map((line) => cautionOf("heed", line))];
  const own = stepCautions(at);
  const aid = at.screen.view.cup && at.step ? firstAid(at.step, shownCautions(at)) : null;
  return heeds.length || own.length || aid ? make("div.heedful", {}, heeds, own, aid) : null;
}
