/** The wall as it is built: the first layer at the foot (upright) or at the left (lying), each filled as far as it is. */

import { draw, make } from "../../../parts/make";

export interface Layer {
  readonly key: string;
  readonly words: string;
  /** A pattern of the page (`stipple-1`, `weave-2`) or a color (`original`, `wax`). */
  readonly fill: string;
  readonly share: number;
  readonly done: number;
  readonly now: boolean;
  readonly notches: number;
}

const PLAIN = ["original", "wax", "plaster"];
const GAP = 1.2;

function painted(fill: string): { readonly class: string; readonly fill?: string } {
  return PLAIN.includes(fill) ? { class: `in-${fill}` } : { class: "patterned", fill: `url(#${fill})` };
}

/** Upright, with the layers' names beside them. */
export function upright(layers: readonly Layer[], words: string): HTMLElement {
  const rows = [...layers].reverse().map((layer) => {
    const row = make("div.layer", { "data-now": layer.now }, bar(layer, true), make("span", {}, layer.words));
    row.style.flexGrow = String(layer.share);
    return row;
  });
  return make("div.wall-upright", { role: "img", "aria-label": words }, rows);
}

/** Lying, for a phone. */
export function lying(layers: readonly Layer[], words: string): HTMLElement {
  const boxes = layers.map((layer) => {
    const box = make("div.layer", { "data-now": layer.now }, bar(layer, false));
    box.style.flexGrow = String(layer.share);
    return box;
  });
  return make("div.wall-lying", { role: "img", "aria-label": words }, boxes);
}

function bar(layer: Layer, up: boolean): SVGElement {
  const part = Math.round(100 * layer.done * 10) / 10;
  const rest = 100 - part;
  const size = up ? { x: 0, y: `${rest}%`, width: "100%", height: `${part}%` } : { x: 0, y: 0, width: `${part}%`, height: "100%" };
  const stage = layer.now ? "now" : layer.done > 0 ? "built" : "to-come";
  return draw(
    `svg.layer-bar.${stage}`,
    { "aria-hidden": "true" },
    part > 0 ? draw("rect", { ...size, ...painted(layer.fill) }) : null,
    draw("rect.frame", { x: GAP, y: GAP, width: "100%", height: "100%", "data-frame": true }),
  );
}

/** A layer as a small picture beside the words of what is in hand. */
export function chip(layer: Layer): SVGElement {
  const notches = Array.from({ length: layer.notches }, (_, n) => draw("path.in-sheet", { d: `M${4 + 9 * n} 30l4-6 4 6z` }));
  return draw(
    "svg.layer-chip",
    { viewBox: "0 0 46 31", "aria-hidden": "true" },
    draw("rect.chip-frame", { x: 0.75, y: 0.75, width: 44.5, height: 29.5, ...painted(layer.fill) }),
    ...notches,
  );
}
