/** What was understood of a tape, from the front and from the side. All lengths come from the desk; here they are only drawn. */

interface Level {
  at: number;
  wide: number;
  deep: number;
  wide_said: string;
  deep_said: string;
}

/** What the desk tells of a tape (`tape.py`). */
export interface Told {
  so_far: { at: number; wide: number; deep: number }[];
  understood: {
    height_mm: number;
    height: string;
    views: { facing: string; rings: [number, number][][] }[];
    levels: Level[];
    figures: [string, string][];
    lines: string[];
    facing: Record<string, string>;
  } | null;
  wrong: { found: string; wanted: string; remedy: string } | null;
}

const SVG = "http://www.w3.org/2000/svg";
const TALL = 300;
const ROOM = 40;

/** Draw it into a place, with its figures below. */
export function draw(place: HTMLElement, told: Told): void {
  const parts: Element[] = [];
  const known = told.understood;
  if (known) {
    parts.push(views(told));
    parts.push(table(known.figures));
    parts.push(...known.lines.map((line) => element("p", "small", line)));
  } else if (told.so_far.length > 0) parts.push(views(told));
  if (told.wrong && told.so_far.length > 2) parts.push(clash(told.wrong));
  place.replaceChildren(...parts);
}

function views(told: Told): SVGElement {
  const top = Math.max(told.understood?.height_mm ?? 0, ...told.so_far.map((one) => one.at), 1);
  const half = Math.max(...told.so_far.map((one) => Math.max(one.wide, one.deep) / 2), ...reach(told), 1);
  const scale = Math.min(TALL / top, 150 / half);
  const wide = 4 * half * scale + 3 * ROOM;
  const base = top * scale + ROOM;
  const svg = made("svg", { viewBox: `0 0 ${wide.toFixed(1)} ${(base + 34).toFixed(1)}`, class: "tape-views", role: "img" });
  svg.setAttribute("aria-label", told.understood?.figures.map((row) => row.join(" ")).join(", ") ?? "");
  const facings = ["front", "side"];
  facings.forEach((facing, n) => {
    const middle = ROOM + half * scale + n * (2 * half * scale + ROOM);
    const at = (x: number, z: number): [number, number] => [middle + x * scale, base - z * scale];
    for (const view of told.understood?.views ?? [])
      if (view.facing === facing) svg.append(outline(view.rings, at));
    if (!told.understood) svg.append(sketch(told.so_far, facing, at));
    for (const level of told.understood?.levels ?? []) svg.append(...ring(level, facing, at, scale));
    svg.append(text(middle, base + 26, told.understood?.facing[facing] ?? "", "facing"));
  });
  svg.append(board(wide, base));
  if (told.understood) svg.append(...height(told.understood.height, wide / 2, base, top * scale));
  return svg;
}

function reach(told: Told): number[] {
  const views = told.understood?.views ?? [];
  return views.flatMap((view) => view.rings.flatMap((ring) => ring.map(([x]) => Math.abs(x))));
}

type At = (x: number, z: number) => [number, number];

function outline(rings: [number, number][][], at: At): SVGElement {
  const path = rings.map((ring) => `M${ring.map(([x, z]) => at(x, z).map((v) => v.toFixed(1)).join(" ")).join("L")}Z`);
  return made("path", { d: path.join(""), class: "in-well ink-line", "stroke-width": "2.5", "fill-rule": "evenodd" });
}

/** The levels joined, dashed, until enough is there to be understood. */
function sketch(rows: Told["so_far"], facing: string, at: At): SVGElement {
  const half = rows.map((one): [number, number] => [(facing === "front" ? one.wide : one.deep) / 2, one.at]);
  const side = [...half.map(([x, z]) => at(-x, z)), ...half.reverse().map(([x, z]) => at(x, z))];
  const d = `M${side.map((point) => point.map((v) => v.toFixed(1)).join(" ")).join("L")}`;
  return made("path", { d, class: "empty-inside edge-line", "stroke-width": "2.5", "stroke-dasharray": "5 6" });
}

function ring(level: Level, facing: string, at: At, scale: number): SVGElement[] {
  const across = facing === "front" ? level.wide : level.deep;
  const said = facing === "front" ? level.wide_said : level.deep_said;
  if (across <= 0) return [];
  const [x, y] = at(0, level.at);
  const rx = (across / 2) * scale;
  const oval = made("ellipse", { cx: x, cy: y, rx, ry: Math.min(6, rx * 0.12), class: "empty-inside ink-line" });
  return said ? [oval, text(x, y - 8, said.replace(/\s\D+$/, ""), "level")] : [oval];
}

function board(wide: number, base: number): SVGElement {
  return made("path", { d: `M8 ${base.toFixed(1)}H${(wide - 8).toFixed(1)}`, class: "ink-line", "stroke-width": "4" });
}

function height(said: string, x: number, base: number, tall: number): SVGElement[] {
  const top = base - tall;
  const line = made("path", {
    d: `M${x - 8} ${top.toFixed(1)}h16M${x} ${top.toFixed(1)}V${base.toFixed(1)}`,
    class: "ink-line",
    "stroke-width": "1.5",
  });
  return [line, text(x, (top + base) / 2, said, "tall")];
}

function text(x: number, y: number, said: string, kind: string): SVGElement {
  const made_ = made("text", { x: x.toFixed(1), y: y.toFixed(1), "text-anchor": "middle", class: kind });
  made_.textContent = said;
  return made_;
}

function made(name: string, values: Record<string, string | number>): SVGElement {
  const node = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(values)) node.setAttribute(key, String(value));
  return node;
}

function table(rows: [string, string][]): Element {
  const list = element("dl", "figures", "");
  for (const [name, value] of rows) list.append(element("dt", "", name), element("dd", "", value));
  return list;
}

function clash(wrong: NonNullable<Told["wrong"]>): Element {
  const bar = element("div", "caution", "");
  bar.setAttribute("role", "note");
  const says = element("div", "says", "");
  says.append(element("p", "", wrong.found), element("p", "", wrong.remedy));
  bar.append(says);
  return bar;
}

function element(name: string, kind: string, said: string): HTMLElement {
  const node = document.createElement(name);
  if (kind) node.className = kind;
  node.textContent = said;
  return node;
}
