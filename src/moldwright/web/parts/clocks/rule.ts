/** Clocks drawn as rules: only lengths are drawn here. */

import { draw } from "../make";
import type { Item } from "./items";

const DIVISIONS = 10;
const LAST = 20;

/** What is left is full, its last fifth hatched; past its end it is chevrons, at rest an outline. */
export function clockRule(item: Item): SVGElement[] {
  const share = 100 * item.share;
  const rule = [draw("rect.in-well.edge-line", { x: 1, y: 2, width: "99%", height: 12, "stroke-width": 1.5 })];
  if (item.stage === "past") return [...rule, ...chevrons()];
  const hatch = item.stage === "last fifth" ? "url(#hatch-heed)" : "url(#hatch)";
  rule.push(draw("rect", { x: 1, y: 2, width: `${Math.min(share, LAST)}%`, height: 12, fill: hatch }));
  if (item.stage === "rest") return [...rule, ...divisions()];
  if (share > LAST) rule.push(draw("rect.in-ink", { x: `${LAST}%`, y: 2, width: `${share - LAST}%`, height: 12 }));
  return [...rule, draw("rect.in-ink", { x: `${Math.min(share, 99)}%`, y: 0, width: 4, height: 17 }), ...divisions()];
}

function chevrons(): SVGElement[] {
  return Array.from({ length: 14 }, (_, n) => draw("path.in-ink", { d: `M${4 + 17 * n} 3h7l5 5-5 5h-7l5-5z` }));
}

function divisions(): SVGElement[] {
  return Array.from({ length: DIVISIONS + 1 }, (_, n) =>
    draw("rect.in-edge", { x: `${n * (99 / DIVISIONS)}%`, y: 14, width: 1.5, height: n % 5 === 0 ? 6 : 3 }),
  );
}

/** Dots before it is tacky, uprights while it is, a cross-hatch behind; the needle is now. */
export function windowRule({ share, opens, closes }: Item): SVGElement[] {
  const [now, from, to] = [share, opens, closes].map((part) => 100 * part) as [number, number, number];
  return [
    draw("rect", { x: 0, y: 4, width: `${from}%`, height: 12, fill: "url(#dotted)" }),
    draw("rect", { x: `${to}%`, y: 4, width: `${100 - to}%`, height: 12, fill: "url(#crossed)", opacity: 0.6 }),
    draw("rect.in-soft.ink-line", { x: `${from}%`, y: 4, width: `${to - from}%`, height: 12, "stroke-width": 2 }),
    draw("svg", { x: `${from}%`, overflow: "visible" }, draw("path.empty-inside.ink-line", { d: "M6 2H0v16h6", "stroke-width": 3.5 })),
    draw("svg", { x: `${to}%`, overflow: "visible" }, draw("path.empty-inside.ink-line", { d: "M-6 2H0v16h-6", "stroke-width": 3.5 })),
    draw("svg", { x: `${now}%`, overflow: "visible" }, draw("path.in-ink", { d: "M-7 0H7L0 9zM-1.5 6h3v14h-3z" })),
  ];
}
