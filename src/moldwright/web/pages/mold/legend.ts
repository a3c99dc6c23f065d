/** Feeler leaves: limits between the blades, above each its share of the surface. */

import { endLines } from "./ends";
import { made } from "./made";
import { markOn } from "./paint";
import { drawnPattern, OF_LEAVES, PLAIN } from "./patterns";
import type { End, Quantity, Words } from "./told";

const SVG = "http://www.w3.org/2000/svg";
const WIDE = 60;

export function legend(quantity: Quantity, words: Words, patterned: boolean, look: (end: End) => void): HTMLElement {
  const { limits, shares, shares_told, unit, above } = quantity.legend;
  const box = made("figure", "leaves");
  const told = made("figcaption");
  told.append(made("strong", "", quantity.title), ` ${quantity.told} ${words["share"]} ${above ? words["beyond"] : ""}`);
  const drawing = document.createElementNS(SVG, "svg");
  drawing.setAttribute("viewBox", `-26 0 ${8 * WIDE + 76} 102`);
  drawing.setAttribute("role", "img");
  drawing.setAttribute("aria-label", shares.map((_, n) => `${limits[n]}–${limits[n + 1]} ${unit}: ${shares_told[n]}`).join("; "));
  const most = Math.max(...shares, 1e-9);
  quantity.leaves.forEach((color, n) => {
    const share = shares[n] ?? 0;
    const high = share && Math.max(1, 32 * (share / most));
    drawing.append(
      drawn("rect", { x: n * WIDE + 5, y: 36 - high, width: WIDE - 10, height: high, class: "share" }),
      ...filled({ d: blade(n * WIDE), class: "blade" }, color, patterned ? (OF_LEAVES[n] ?? PLAIN) : PLAIN),
      words_at(n * WIDE, limits[n] ?? "", n % 2 ? "between" : ""),
    );
  });
  drawing.append(words_at(8 * WIDE, limits[8] ?? "", ""), drawn("text", { x: 8 * WIDE + 8, y: 60 }, unit));
  box.append(told, drawing, endLines(quantity.ends, look));
  if (quantity.at_bench) told.append(made("strong", "at-bench", quantity.at_bench));
  return box;
}

/** A patch of a color, with its pattern over it. */
export function swatch(color: string, pattern: number): SVGElement {
  const drawing = document.createElementNS(SVG, "svg");
  drawing.setAttribute("class", "swatch");
  drawing.setAttribute("viewBox", "0 0 44 26");
  drawing.setAttribute("aria-hidden", "true");
  drawing.append(...filled({ d: "M0 0h44v26H0z" }, color, pattern));
  return drawing;
}

/** A shape in a color, and once more in a pattern, if there is one. */
function filled(shape: Record<string, string | number>, color: string, pattern: number): SVGElement[] {
  const id = `marks-${pattern}-${color.replace("#", "")}`;
  const marks = drawnPattern(pattern, id, markOn(color));
  const plain = drawn("path", { ...shape, fill: color });
  return marks ? [plain, marks, drawn("path", { ...shape, fill: `url(#${id})` })] : [plain];
}

function blade(x: number): string {
  return `M${x + 1} 40h${WIDE - 2}v24q0 6-6 6h-${WIDE - 14}q-6 0-6-6z`;
}

function words_at(x: number, text: string, seen: string): SVGElement {
  return drawn("text", { x, y: 95, "text-anchor": "middle", class: seen }, text);
}

function drawn(tag: string, values: Record<string, string | number>, text = ""): SVGElement {
  const element = document.createElementNS(SVG, tag);
  element.textContent = text;
  for (const [name, value] of Object.entries(values)) element.setAttribute(name, String(value));
  return element;
}
