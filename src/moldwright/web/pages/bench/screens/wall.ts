/** The wall of the run: its layers as they are drawn, and in a sentence. */

import type { Layer } from "../draw/wall";
import { say } from "../../../parts/words";
import type { WallLayer } from "../told";
import type { AtBench } from "./at";

const COATS = 3;
const SHARES = { built: 1, "to-come": 0 } as const;

export function layersOf(at: AtBench): Layer[] {
  const shown = at.screen.view.wall;
  const layers = shown ? (at.told.walls[shown.wall] ?? []) : [];
  return layers.map((layer, n): Layer => {
    const state = shown?.layers[n] ?? { state: "to-come" as const, share: 0, packing: "" };
    const done = layer.key === "original" ? 1 : state.state === "in-hand" ? Math.max(0.08, state.share) : SHARES[state.state];
    return { ...layer, words: layer.name, fill: fillOf(layer), done, now: state.state === "in-hand" };
  });
}

/** Where the sheets' own names of colors and patterns lead on this page. */
function fillOf(layer: WallLayer): string {
  const coat = /(\d+)$/.exec(layer.key)?.[1];
  const number = ((Number(coat ?? 1) - 1) % COATS) + 1;
  if (layer.key.startsWith("coat")) return `${PATTERNS[layer.pattern] ?? "brush"}-${number}`;
  if (layer.pattern === "weave45") return "weave-2";
  if (layer.pattern === "weave") return "weave-1";
  return layer.key.includes("wax") ? "wax" : layer.key === "original" ? "original" : "plaster";
}

const PATTERNS: Readonly<Record<string, string>> = { stipple: "stipple", dots: "stipple", brush: "brush", strokes: "brush", stick: "stick", slabs: "stick" };

/** "Built: original, coat 1. In hand: coat 2. To come: coat 3, wax." */
export function wallWords(at: AtBench): string {
  const layers = layersOf(at);
  const named = (some: readonly Layer[]): string => some.map((layer) => layer.words).join(", ");
  const sorts: readonly (readonly [string, readonly Layer[]])[] = [
    ["wall-built", layers.filter((layer) => !layer.now && layer.done > 0)],
    ["wall-now", layers.filter((layer) => layer.now)],
    ["wall-to-come", layers.filter((layer) => !layer.now && layer.done === 0)],
  ];
  return sorts.filter(([, some]) => some.length).map(([name, some]) => say(name, { layers: named(some) })).join(" ");
}
