/** What tells leaves, coats and pieces apart without color: dots, lines, grids, the same on a solid and in its legend. */

export const PLAIN = 0;
export const CROSSED = 8;
/** Those of the eight leaves, in their order. */
export const OF_LEAVES = [PLAIN, 1, 2, 3, 4, 5, 6, 7] as const;
/** Those of the coats as they are laid: stippled, brushed, with a stick. */
export const OF_COATS = [1, 2, 4] as const;
/** Those of the shell's pieces: a weave, straight and turned. */
export const OF_PIECES = [6, CROSSED] as const;

/** A place on a surface, in steps of the pattern, and how far it goes over one pixel: how much of the mark covers it. */
export const PATTERNS = /* glsl */ `
float lines(float at, float soft, float share) {
  return 1.0 - smoothstep(0.5 * share - soft, 0.5 * share + soft, abs(fract(at) - 0.5));
}
float dots(vec2 at, float soft, float wide) {
  return 1.0 - smoothstep(wide - soft, wide + soft, length(fract(at) - 0.5));
}
float pattern(int which, vec2 at, vec2 soft) {
  vec2 aslant = vec2(at.x + at.y, at.x - at.y) * 0.7071;
  float most = max(soft.x, soft.y);
  if (which == 1) return dots(at, most, 0.16);
  if (which == 2) return lines(at.y, soft.y, 0.2);
  if (which == 3) return lines(at.x, soft.x, 0.2);
  if (which == 4) return lines(aslant.x, most, 0.2);
  if (which == 5) return lines(aslant.y, most, 0.2);
  if (which == 6) return max(lines(at.x, soft.x, 0.16), lines(at.y, soft.y, 0.16));
  if (which == 7) return dots(at, most, 0.34);
  if (which == 8) return max(lines(aslant.x, most, 0.16), lines(aslant.y, most, 0.16));
  return 0.0;
}`;

const SVG = "http://www.w3.org/2000/svg";
const CELL = 10;
const MARKS: Readonly<Record<number, string>> = {
  1: "M5 3.4a1.6 1.6 0 1 1 0 3.2a1.6 1.6 0 1 1 0-3.2z",
  2: "M0 4h10v2H0z",
  3: "M4 0h2v10H4z",
  4: "M0 0h1.4L10 8.6V10H8.6L0 1.4zM8.6 0H10v1.4zM0 8.6V10h1.4z",
  5: "M10 0H8.6L0 8.6V10h1.4L10 1.4zM1.4 0H0v1.4zM10 8.6V10H8.6z",
  6: "M0 4.2h10v1.6H0zM4.2 0h1.6v10H4.2z",
  7: "M5 1.6a3.4 3.4 0 1 1 0 6.8a3.4 3.4 0 1 1 0-6.8z",
};

/** A pattern for a drawing, to be laid among its parts; its mark in a color. Nothing for a plain one. */
export function drawnPattern(which: number, id: string, mark: string): SVGElement | null {
  const told = which === CROSSED ? `${MARKS[4]}${MARKS[5]}` : MARKS[which];
  if (!told) return null;
  const pattern = document.createElementNS(SVG, "pattern");
  const path = document.createElementNS(SVG, "path");
  for (const [name, value] of Object.entries({ id, width: CELL, height: CELL, patternUnits: "userSpaceOnUse" }))
    pattern.setAttribute(name, String(value));
  path.setAttribute("d", told);
  path.setAttribute("fill", mark);
  pattern.append(path);
  return pattern;
}
