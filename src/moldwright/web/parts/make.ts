/** Elements made from a tag with classes, attributes and what is inside. */

export type Inside = Node | string | null | undefined | false | readonly Inside[];
export type Attributes = Readonly<Record<string, string | number | boolean | null | undefined>>;

const SVG = "http://www.w3.org/2000/svg";

/** `make("p.small.far", { role: "note" }, "words")`. */
export function make<T extends HTMLElement = HTMLElement>(tag: string, attributes: Attributes = {}, ...inside: Inside[]): T {
  const [name = "div", ...classes] = tag.split(".");
  const made = document.createElement(name);
  if (classes.length) made.className = classes.join(" ");
  return filled(made, attributes, inside) as T;
}

/** The same in a drawing. */
export function draw(tag: string, attributes: Attributes = {}, ...inside: Inside[]): SVGElement {
  const [name = "g", ...classes] = tag.split(".");
  const made = document.createElementNS(SVG, name) as SVGElement;
  if (classes.length) made.setAttribute("class", classes.join(" "));
  return filled(made, attributes, inside);
}

function filled<T extends Element>(made: T, attributes: Attributes, inside: readonly Inside[]): T {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === true) made.setAttribute(name, "");
    else if (value !== false && value !== null && value !== undefined) made.setAttribute(name, String(value));
  }
  put(made, inside);
  return made;
}

/** Append what there is. */
export function put(into: Element, inside: Inside): void {
  if (inside === null || inside === undefined || inside === false) return;
  if (typeof inside === "string" || inside instanceof Node) into.append(inside);
  else for (const each of inside) put(into, each);
}
