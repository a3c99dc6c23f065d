/** The bar over Short, Right and Over: the tolerance, with a needle where the scale stands. */

import { draw } from "../../../parts/make";

export type Judged = "short" | "right" | "over";

/** What is allowed, in the unit in which it is typed. */
export interface Allowed {
  readonly low: number;
  readonly high: number;
}

const LEFT = 30;
const RIGHT = 70;

export function judged(value: number, allowed: Allowed): Judged {
  return value < allowed.low ? "short" : value > allowed.high ? "over" : "right";
}

/** Where along the rule a reading stands, in percent of its length. */
export function place(value: number, { low, high }: Allowed): number {
  const at = LEFT + ((RIGHT - LEFT) * (value - low)) / Math.max(high - low, 1e-9);
  return Math.min(99, Math.max(1, at));
}

/** Without a reading the needle stands in the middle of what is wanted, hollow. */
export function rule(allowed: Allowed, reading: number | null, words: string): SVGElement {
  const at = reading === null ? null : judged(reading, allowed);
  const needle = reading === null ? (LEFT + RIGHT) / 2 : place(reading, allowed);
  return draw(
    `svg.judge-rule${at ? `.${at}` : ""}`,
    { role: "img", "aria-label": words },
    ...marks(),
    draw("rect.allowed", { x: `${LEFT}%`, y: 22, width: `${RIGHT - LEFT}%`, height: 10 }),
    draw("svg", { x: `${needle}%`, overflow: "visible" }, draw(reading === null ? "path.needle.hollow" : "path.needle", { d: "M-11 2H11L0 20z" })),
  );
}

function marks(): SVGElement[] {
  return Array.from({ length: 41 }, (_, n) =>
    draw("rect.mark", { x: `${n * 2.5}%`, y: n % 5 === 0 ? 6 : 18, width: 2, height: n % 5 === 0 ? 20 : 8 }),
  );
}
