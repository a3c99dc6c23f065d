/** Where a quantity is least and where most: signs as on the sheets, over the solids and in its legend. */

import { made } from "./made";
import type { End } from "./told";

const SVG = "http://www.w3.org/2000/svg";
const SIGNS: Readonly<Record<End["name"], string>> = { least: "M2 3h20L12 21z", most: "M2 21h20L12 3z" };

/** A sign: the least points down and is full, the most points up and is empty. */
export function endSign(name: End["name"]): SVGElement {
  const drawing = document.createElementNS(SVG, "svg");
  const path = document.createElementNS(SVG, "path");
  drawing.setAttribute("class", `end-sign ${name}`);
  drawing.setAttribute("viewBox", "0 0 24 24");
  drawing.setAttribute("aria-hidden", "true");
  path.setAttribute("d", SIGNS[name]);
  drawing.append(path);
  return drawing;
}

/** A line for each, to be pressed: it is looked at then. */
export function endLines(ends: readonly End[], look: (end: End) => void): HTMLElement {
  const list = made("ul", "ends");
  for (const end of ends) {
    const button = made("button", "end");
    button.type = "button";
    button.append(endSign(end.name), made("span", "", end.told));
    button.addEventListener("click", () => look(end));
    const item = made("li");
    item.append(button);
    list.append(item);
  }
  return list;
}
