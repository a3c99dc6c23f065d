/** Feeler leaves: limits between the blades, above each its share of the surface. */

import { made } from "./made";
import { colors } from "./paint";
import type { Quantity, Words } from "./told";

const SVG = "http://www.w3.org/2000/svg";
const WIDE = 60;

export function legend(quantity: Quantity, words: Words): HTMLElement {
  const { limits, shares, shares_told, unit, above } = quantity.legend;
  const box = made("figure", "leaves");
  const told = made("figcaption");
  told.append(made("strong", "", quantity.title), ` ${quantity.told} ${words["share"]} ${above ? words["beyond"] : ""}`);
  const drawing = document.createElementNS(SVG, "svg");
  drawing.setAttribute("viewBox", `-14 0 ${8 * WIDE + 60} 100`);
  drawing.setAttribute("role", "img");
  drawing.setAttribute("aria-label", shares.map((_, n) => `${limits[n]}–${limits[n + 1]} ${unit}: ${shares_told[n]}`).join("; "));
  const most = Math.max(...shares, 1e-9);
  colors(quantity.colors).forEach((color, n) => {
    const high = Math.max(1, 32 * ((shares[n] ?? 0) / most));
    drawing.append(
      drawn("rect", { x: n * WIDE + 5, y: 36 - high, width: WIDE - 10, height: high, class: "share" }),
      drawn("path", { d: blade(n * WIDE), fill: color, class: "blade" }),
      words_at(n * WIDE, limits[n] ?? ""),
    );
  });
  drawing.append(words_at(8 * WIDE, `${limits[8]} ${unit}`));
  box.append(told, drawing);
  return box;
}

function blade(x: number): string {
  return `M${x + 1} 40h${WIDE - 2}v24q0 6-6 6h-${WIDE - 14}q-6 0-6-6z`;
}

function words_at(x: number, text: string): SVGElement {
  const words = drawn("text", { x, y: 93, "text-anchor": "middle" });
  words.textContent = text;
  return words;
}

function drawn(tag: string, values: Record<string, string | number>): SVGElement {
  const element = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(values)) element.setAttribute(name, String(value));
  return element;
}
