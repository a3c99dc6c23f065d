/** The cup in hand with a line at each running total: what is in is filled, what goes in now is hatched. */

import { draw } from "../../../parts/make";

/** A part, in the order in which they go in; masses in any one unit. */
export interface Poured {
  readonly key: string;
  readonly name: string;
  readonly add: string;
  readonly reads: string;
  readonly up_to: number;
  readonly now: boolean;
  readonly in: boolean;
}

const WIDE = 372;
const HIGH = 480;
const TOP = 34;
const FOOT = 452;
const LIP = 132;
const BASE = 108;
const LABEL_APART = 48;
/** The highest line stands so far below the lip; of a cup that is much too large for what goes in, only its foot is drawn. */
const FULL = 0.86;
const FOOT_ALONE = 1.5;

/** All of it; `most`: what the cup may hold, `words` say it to who does not see. */
export function cup(parts: readonly Poured[], most: number, words: string): SVGElement {
  const whole = Math.max(...parts.map((part) => part.up_to), 1e-9);
  const top = Math.max(whole, Math.min(most, whole * FOOT_ALONE)) / FULL;
  const y = (mass: number): number => FOOT - (FOOT - TOP) * (mass / top);
  const labels = spread(parts.map((part) => y(part.up_to)));
  return draw(
    "svg.cup-drawing",
    { viewBox: `0 0 ${WIDE} ${HIGH}`, role: "img", "aria-label": words },
    ...parts.map((part, n) => level(part, y(part.up_to), n ? y(parts[n - 1]?.up_to ?? 0) : FOOT)),
    draw("path.cup-wall", { d: `M0 ${TOP}L${(LIP - BASE) / 2} ${FOOT}H${(LIP + BASE) / 2}L${LIP} ${TOP}` }),
    draw("path.cup-lip", { d: `M-3 ${TOP}H${LIP + 3}` }),
    ...parts.map((part, n) => label(part, y(part.up_to), labels[n] ?? 0)),
  );
}

/** Half of what the cup is narrower at a height than at its lip. */
function inset(y: number): number {
  return ((LIP - BASE) / 2) * ((y - TOP) / (FOOT - TOP));
}

function level(part: Poured, high: number, low: number): SVGElement {
  const [a, b] = [inset(high), inset(low)];
  const shape = `M${a} ${high}H${LIP - a}L${LIP - b} ${low}H${b}z`;
  const kind = part.in ? `.in.of-${part.key}` : part.now ? ".now" : ".to-come";
  return draw(
    "g",
    {},
    part.in || part.now ? draw(`path.level${kind}`, { d: shape }) : null,
    draw(`path.level-line${kind}`, { d: `M${a} ${high}H${LIP - a + (part.now ? 18 : 0)}` }),
  );
}

function label(part: Poured, at: number, y: number): SVGElement {
  const bold = part.now ? ".now" : "";
  return draw(
    "g",
    {},
    draw("path.lead", { d: `M${LIP - inset(at) + 2} ${at}H${LIP + 12}L${LIP + 20} ${y - 8}H${LIP + 26}` }),
    draw(`text.total${bold}`, { x: LIP + 30, y }, part.reads + (part.in ? "  ✓" : "")),
    draw(`text.part${bold}`, { x: LIP + 30, y: y + 20 }, `${part.name} ${part.add}`),
  );
}

/** Labels at their lines, moved apart where they would lie on each other; from the foot up. */
function spread(at: readonly number[]): number[] {
  const placed: number[] = [];
  for (const y of at) {
    const before = placed.at(-1);
    placed.push(before === undefined ? Math.min(y + 8, FOOT - 24) : Math.min(y + 8, before - LABEL_APART));
  }
  const lifted = TOP - 14 - (placed.at(-1) ?? TOP);
  return lifted > 0 ? placed.map((y, n) => Math.min(y + lifted, FOOT - 24 - LABEL_APART * n)) : placed;
}
