/** What a press asks for before it writes: digits on the pad, a choice, or words by the device's own keyboard. */

import { make, type Inside } from "../../../parts/make";
import { rule, judged, type Judged } from "../draw/rule";
import { Pad } from "../hand/pad";
import { say } from "../../../parts/words";
import type { Ask } from "../told";
import type { AtBench } from "./at";
import { button } from "./buttons";
import { allowedOf } from "./weigh";

const SEVERAL = ["lengths"];
const AIR = ["air"];
const NUMBERS = ["mass", "volume", "temperature", "length", "number", "share"];

/** A form of one question; `take` is given what was typed. */
export interface Asking {
  readonly element: HTMLElement;
  readonly pad: Pad | null;
  /** What the cut corners do. */
  main(): void;
}

function framed(at: AtBench, title: string, inside: Inside, acts: Inside): HTMLElement {
  const close = button("close", say("close"), () => at.open(null));
  const head = make("header", {}, make("h1", { id: "over-title" }, title), close);
  return make("section.laid-over.asking", { role: "dialog", tabindex: -1, "aria-modal": "true", "aria-labelledby": "over-title" }, head, inside, make("footer.ask-acts", {}, acts));
}

/** A question of any kind. */
export function asking(at: AtBench, ask: Ask, take: (typed: string) => void): Asking {
  if (ask.what === "choice") return choice(at, ask, take);
  if (SEVERAL.includes(ask.what) || AIR.includes(ask.what) || NUMBERS.includes(ask.what)) return digits(at, ask, take);
  return words(at, ask, take);
}

function choice(at: AtBench, ask: Ask, take: (typed: string) => void): Asking {
  const all = at.told.mishaps.map((mishap, n) => button(`choice-${n}`, mishap, () => take(mishap)));
  return { element: framed(at, ask.label, make("div.choices", {}, all), null), pad: null, main: () => undefined };
}

function words(at: AtBench, ask: Ask, take: (typed: string) => void): Asking {
  const field = make<HTMLTextAreaElement>("textarea", { rows: 3, "aria-label": ask.label, "data-key": "words" });
  const main = (): void => {
    if (field.value.trim() || ask.may_lack) take(field.value.trim());
    else field.focus();
  };
  setTimeout(() => field.focus());
  return { element: framed(at, ask.label, field, button("take", say("write-it"), main, true)), pad: null, main };
}

/** One number, or several, each with its own unit. */
function digits(at: AtBench, ask: Ask, take: (typed: string) => void): Asking {
  const before: string[] = [];
  const air = AIR.includes(ask.what);
  const many = SEVERAL.includes(ask.what) || air;
  const shown = make("output.typed", { "aria-live": "polite" });
  const pad = new Pad(say("point"), () => show());
  const unit = (): string => (air && before.length === 1 ? "%" : ask.unit);
  const next = button("next", say(air ? "humidity" : "next-place"), () => {
    if (pad.value === null || (air && before.length === 1)) return;
    before.push(pad.typed);
    pad.clear();
  });
  const all = (): string[] => [...before, ...(pad.value === null ? [] : [pad.typed])];
  const main = (): void => {
    const typed = all();
    if (typed.length) take(air && typed.length > 1 ? `${typed[0]} ${typed[1]} %` : typed.join(" "));
    else if (ask.may_lack) take("");
  };
  function show(): void {
    shown.textContent = [...before, pad.shown || "–"].join("  ") + (unit() ? ` ${unit()}` : "");
    next.toggleAttribute("disabled", pad.value === null || (air && before.length === 1));
  }
  show();
  const inside = make("div.pad-row", {}, make("div.typed-box", {}, shown, many ? next : null), pad.element);
  return { element: framed(at, ask.label, inside, button("take", say("write-it"), main, true)), pad, main };
}

/** A reading after Short or Over: the needle moves as it is typed, and the act says what it is. */
export function reading(at: AtBench, ask: Ask, take: (typed: string, value: number, as: Judged) => void): Asking {
  const allowed = allowedOf(at);
  const { limits } = at.screen.view;
  const shown = make("output.typed", { "aria-live": "polite" });
  const bar = make("div.rule-over");
  const act = button("take", "", () => main(), true);
  const pad = new Pad(say("point"), () => show());
  function main(): void {
    if (allowed && pad.value !== null) take(pad.typed, pad.value, judged(pad.value, allowed));
  }
  function show(): void {
    if (!allowed || !limits) return;
    const as = pad.value === null ? null : judged(pad.value, allowed);
    shown.textContent = `${pad.shown || "–"} ${ask.unit}`;
    const words = say("allowed", { low: limits.low_text, high: limits.high_text });
    bar.replaceChildren(rule(allowed, pad.value, as ? `${words} ${say(as)}` : words));
    act.replaceChildren(as ? say(as) : say("type-it"));
    act.dataset["judged"] = as ?? "";
    act.toggleAttribute("disabled", as === null);
  }
  show();
  const wanted = make("p.wanted", {}, `${at.screen.view.say} ${at.screen.view.figure?.text ?? ""} ${at.screen.view.figure?.unit ?? ""}`);
  const box = make("div.typed-box", {}, wanted, shown, bar);
  return { element: framed(at, ask.label, make("div.pad-row", {}, box, pad.element), act), pad, main };
}
