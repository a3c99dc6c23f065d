/** What is pressed: a main act with two cut corners, others without, and the column of what is always there. */

import { draw, make, type Inside } from "../../../parts/make";
import { say } from "../../../parts/words";
import { waitsForDesk } from "../run/steps";
import type { Press } from "../told";
import type { AtBench } from "./at";
import { inOrder } from "./narrow";

/** `name` finds it again after the screen was drawn anew, and for who tests it. */
export function button(name: string, inside: Inside, act: () => void, main = false): HTMLElement {
  const made = make(main ? "button.do" : "button", { type: "button", "data-key": name }, inside);
  made.addEventListener("click", act);
  return made;
}

/** Words with a smaller line under them. */
export function two(words: string, small: string): Inside {
  return [make("span", {}, words), small ? make("small", {}, small) : null];
}

/** The smaller line of a press: while the desk is not there it says what waits for it. */
export function smallOf(at: AtBench, press: Press): string {
  if (at.online) return press.small;
  if (press.online) return say("needs-server");
  return waitsForDesk(at.screen, press) ? [press.small, say("desk-next")].filter(Boolean).join(". ") : press.small;
}

/** Strike out, and everything that is not asked for now. */
export function always(at: AtBench, struck: string | null): HTMLElement {
  const strike = button("strike", [drawnStrike(), make("span", {}, say("strike"))], () => at.strike());
  if (struck) strike.setAttribute("aria-label", `${say("strike")}: ${struck}`);
  else strike.setAttribute("disabled", "");
  return make("div.always", {}, strike, button("more", say("more"), () => at.open({ form: "more" })));
}

function drawnStrike(): SVGElement {
  return draw(
    "svg.strike-drawing",
    { viewBox: "0 0 62 24", "aria-hidden": "true" },
    draw("path.edge-line", { d: "M7 4h48M7 20h26", "stroke-width": 5 }),
    draw("path.ink-line", { d: "M0 12h62", "stroke-width": 3.5 }),
  );
}

/** Where only is looked, it is told why nothing can be pressed; what the step says of its hazards is a press away. */
export function looksOnly(at: AtBench): HTMLElement {
  const sheets = button("sheets", say("cautions"), () => at.open({ form: "sheets" }));
  return make("footer.bench-act.looks-only", {}, make("p.note", { role: "note" }, say("looks-only")), sheets);
}

/** The row at the bottom edge. */
export function actRow(at: AtBench, struck: string | null, inside: Inside, kind = ""): HTMLElement {
  if (!at.writes) return looksOnly(at);
  const acts = make(`div.acts${kind && `.${kind}`}`, {}, inside);
  return make("footer.bench-act", {}, inOrder(always(at, struck), acts));
}
