/** Everything that is not asked for now, one press away: what is written down beside it, other steps, the log. */

import { keepSilent, silent } from "../clocks/sound";
import { make, type Inside } from "../../../parts/make";
import { say } from "../../../parts/words";
import type { AtBench } from "./at";
import type { Lot } from "../told";
import { cautionOf, firstAid, sheetLine, signs } from "./caution";
import { button, smallOf, two } from "./buttons";
import { turnTo } from "./wait";

const SHORT_LIST = 24;

/** A sheet over the screen, closed by its own press. */
function over(at: AtBench, title: string, inside: Inside): HTMLElement {
  const close = button("close", say("close"), () => at.open(null));
  const head = make("header", {}, make("h1", { id: "over-title" }, title), close);
  return make("section.laid-over", { role: "dialog", tabindex: -1, "aria-modal": "true", "aria-labelledby": "over-title" }, head, inside);
}

export function more(at: AtBench): HTMLElement {
  const aside = at.screen.view.aside.map((press, n) => button(`aside-${press.id}-${n}`, two(press.label, smallOf(at, press)), () => at.press(press)));
  return over(at, say("more"), make("div.choices", {}, aside, photo(at), besides(at)));
}

function besides(at: AtBench): Inside {
  const { view } = at.screen;
  return [
    view.others.length ? button("others", say("other-step"), () => at.open({ form: "others" })) : null,
    view.lots.length ? button("lots", say("lot"), () => at.open({ form: "lots" })) : null,
    button("sheets", say("cautions"), () => at.open({ form: "sheets" })),
    button("log", say("log"), () => at.open({ form: "log" })),
    at.told.found.length ? button("found", say("found"), () => at.open({ form: "found" })) : null,
    view.mold_made && at.online ? button("mold", say("mold"), () => at.registerMold()) : null,
    sound(),
  ];
}

function sound(): HTMLElement {
  const made = button("sound", say("sound"), () => {
    keepSilent(!silent());
    made.setAttribute("aria-pressed", String(!silent()));
  });
  made.setAttribute("aria-pressed", String(!silent()));
  return made;
}

/** The device's own camera takes it. */
function photo(at: AtBench): HTMLElement[] {
  const asks = { type: "file", accept: "image/*", capture: "environment", "data-key": "photo", tabindex: -1, "aria-hidden": "true" };
  const input = make<HTMLInputElement>("input.unseen", asks);
  input.addEventListener("change", () => {
    const file = input.files?.[0];
    if (file) at.photo(file);
  });
  return [button("take-photo", say("photo"), () => input.click()), input];
}

export function otherSteps(at: AtBench): HTMLElement {
  const now = at.screen.view.others.filter((other) => other.since === null);
  const later = at.screen.view.others.filter((other) => other.since !== null);
  return over(at, say("other-step"), [
    make("div.choices", {}, now.map((other) => turnTo(at, other))),
    later.length ? make("h2", {}, say("later")) : null,
    make("ul.lines", {}, later.map((other) => make("li", {}, `${other.number}. ${other.title}`))),
  ]);
}

/** The lots that stand there; one that may be used is taken by pressing it. */
export function lots(at: AtBench): HTMLElement {
  const { lot, lots: there } = at.screen.view;
  const line = (each: Lot): HTMLElement => {
    const words = make("div.lot", {}, make("b", {}, each.name), make("span", {}, each.keeps), each.doubts.map((doubt) => cautionOf(each.grave ? "stop" : "heed", doubt)));
    if (each.grave) return words;
    const take = button(`lot-${each.id}`, each.id === lot?.id ? say("taken-from") : say("take-lot"), () => at.choose(each.id));
    take.setAttribute("aria-pressed", String(each.id === lot?.id));
    return make("div.lot-row", {}, words, take);
  };
  return over(at, say("lot"), [lot ? null : make("p", {}, say("no-lot")), there.map((each) => line(each))]);
}

export function log(at: AtBench): HTMLElement {
  const entries = at.told.log.slice(0, SHORT_LIST).map((entry) => {
    const words = entry.gone ? make("s", {}, entry.text) : make("span", {}, entry.text);
    return make("li", {}, make("time", {}, clockOf(entry.at.ms)), words, entry.by ? make("small", {}, entry.by) : null);
  });
  return over(at, say("log"), make("ol.entries", {}, entries));
}

/** As a watch shows it here. */
export function clockOf(ms: number): string {
  return new Date(ms).toLocaleTimeString(document.documentElement.lang, { hour: "2-digit", minute: "2-digit" });
}

export function found(at: AtBench): HTMLElement {
  return over(at, say("found"), at.told.found.map((each) => cautionOf(each.severity, each.text)));
}

export function cautions(at: AtBench): HTMLElement {
  const { step } = at;
  return over(at, say("cautions"), [
    step ? firstAid(step, []) : null,
    sheetLine(at),
    step?.cautions.map((each) => cautionOf(each.severity, each.text, signs(each.pictograms))),
  ]);
}
