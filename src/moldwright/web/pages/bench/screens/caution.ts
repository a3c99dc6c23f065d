/** Cautions: on their step, above the act; where somebody can be hurt, once over the whole screen before it. */

import { make, type Inside } from "../../../parts/make";
import { say } from "../../../parts/words";
import type { Caution, Step } from "../told";
import type { AtBench } from "./at";
import { actRow, button } from "./buttons";

const GRAVE = ["stop", "heed"];
const SHOWN = 3;

/** One behind its striped edge. */
export function cautionOf(severity: string, text: string, signs: Inside = null): HTMLElement {
  return make("div.caution", { role: "note", "data-severity": severity }, signs, make("div.says", {}, make("p", {}, text)));
}

/** Those of the step that are shown beside its work: the gravest, of a cup one; the others are behind *Something else*. */
export function shownCautions({ step, screen }: AtBench): Caution[] {
  const told = step?.cautions.filter((each) => GRAVE.includes(each.severity)) ?? [];
  return told.slice(0, screen.view.cup ? 1 : SHOWN);
}

/** The same, drawn; beside a cup with all signs of its step. */
export function stepCautions(at: AtBench): HTMLElement[] {
  const drawn = (each: Caution) => (at.screen.view.cup ? (at.step?.pictograms ?? []) : each.pictograms);
  return shownCautions(at).map((each) => cautionOf(each.severity, each.text, signs(drawn(each))));
}

/** Signs with their words: copies of what the page was sent with. */
export function signs(pictograms: readonly string[]): Inside {
  if (!pictograms.length) return null;
  const drawn = pictograms.map((name) => {
    const from = document.querySelector(`#bench-signs [data-sign="${CSS.escape(name)}"]`);
    return make("figure.sign", {}, from?.cloneNode(true) as Element | undefined, make("figcaption", {}, say(`sign-${name}`)));
  });
  return make("div.signs", {}, drawn);
}

/** Whether a step wants its cautions read before it is begun. */
export function hurts(step: Step): boolean {
  return step.cautions.some((each) => each.hazard);
}

/** Before the lid is opened. */
export function cautionScreen(at: AtBench, step: Step, read: () => void): Node[] {
  const told = step.cautions.filter((each) => each.hazard);
  const body = make(
    "main.caution-screen",
    { id: "main", tabindex: -1 },
    make("h1", {}, say("before", { title: step.title })),
    signs(step.pictograms),
    make("div.all", {}, told.map((each) => one(each)), firstAid(step, told), sheetLine(at)),
  );
  const act = button("read", say("read"), read, true);
  return [body, at.writes ? actRow(at, null, act) : make("footer.bench-act.looks-only", {}, make("p.note"), act)];
}

/** What to do first of skin and eyes, where none of the cautions that stand there says it. */
export function firstAid(step: Step, shown: readonly Caution[]): HTMLElement | null {
  return step.first_aid && !shown.some((each) => each.first_aid) ? make("p.first-aid", {}, step.first_aid) : null;
}

function one(caution: Caution): HTMLElement {
  return cautionOf(caution.severity, caution.text);
}

/** The files that the shop has, else whom to ask for one. */
export function sheetLine(at: AtBench): Inside {
  const sheets = at.step?.sheets ?? [];
  const there = sheets.filter((each) => each.file);
  const links = there.map((each) =>
    make("a.button", { href: `/files/${each.file}`, target: "_blank", rel: "noopener", "data-key": "sheet" }, say("sheet-of", { stuff: each.stuff })),
  );
  const lacks = sheets.filter((each) => !each.file).map((each) => each.stuff);
  const ask = lacks.length ? say("ask-sheet", { stuff: lacks.join(" · ") }) : sheets.length ? "" : say("ask-sheets");
  return make("div.sheets", {}, links, ask ? make("p", {}, ask) : null);
}
