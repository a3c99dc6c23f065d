/** Weighing: the figure, the cup, and under the rule of what is allowed the three places to press. */

import { make, type Inside } from "../../../parts/make";
import { rule, type Allowed } from "../draw/rule";
import { say } from "../../../parts/words";
import type { Press } from "../told";
import type { AtBench } from "./at";
import { button, two } from "./buttons";

const ORDER = ["short", "right", "over"] as const;

/** What is allowed, in the unit in which it is shown. */
export function allowedOf(at: AtBench): Allowed | null {
  const { limits, figure } = at.screen.view;
  return limits && figure ? { low: limits.low / figure.unit_is, high: limits.high / figure.unit_is } : null;
}

/** Short, Right and Over under their rule; where nothing is measured, one act. */
export function judge(at: AtBench): Inside {
  const allowed = allowedOf(at);
  const { limits, presses } = at.screen.view;
  if (!allowed || !limits) return presses.map((press) => plain(at, press));
  const words = say("allowed", { low: limits.low_text, high: limits.high_text });
  const three = ORDER.map((id) => presses.find((press) => press.id === id)).filter((press): press is Press => press !== undefined);
  return [make("div.rule-over", {}, rule(allowed, null, words)), three.map((press) => plain(at, press))];
}

function plain(at: AtBench, press: Press): HTMLElement {
  return button(press.id, two(press.label, press.small), () => at.press(press), press.main);
}

/** A part that goes in by new totals: it is right, or the server is asked. */
export function thenActs(at: AtBench): Inside {
  const { then } = at.screen;
  return then ? plain(at, { ...then.press, small: `${then.figure} ${then.unit}` }) : null;
}
