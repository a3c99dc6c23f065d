/** The viewer with all its acts; loaded once there is something to see. */

import { legend, swatch } from "./legend";
import { choices, made, press, rule, toggle } from "./made";
import { Over } from "./over";
import { token } from "./paint";
import { OF_COATS, PLAIN } from "./patterns";
import { Readings } from "./readings";
import type { Solid } from "./solids";
import type { End, Quantity, Told, Words } from "./told";
import { View, type Shown } from "./view";

const SIDES: Readonly<Record<string, readonly [number, number]>> = {
  front: [0, 0.05],
  left: [-Math.PI / 2, 0.05],
  back: [Math.PI, 0.05],
  right: [Math.PI / 2, 0.05],
  above: [0, Math.PI / 2 - 0.01],
};
const FIRST_APART = 0.6;

/** Everything laid into the element. */
export function furnish(into: HTMLElement, told: Told, solids: readonly Solid[], words: Words): void {
  new Room(into, told, solids, words);
}

class Room {
  private readonly shown: Shown;
  private readonly view: View;
  private readonly over: Over;
  private readonly readings: Readings;
  private readonly stage = made("div", "stage");
  private readonly layered: HTMLElement;
  private readonly below = made("div", "legend");
  /** What the legend below is of. */
  private told_of: Pick<Shown, "quantity" | "patterned"> | null = null;

  constructor(
    into: HTMLElement,
    private readonly told: Told,
    solids: readonly Solid[],
    private readonly words: Words,
  ) {
    const first = Math.round(FIRST_APART * (told.apart.mm.length - 1));
    this.shown = { upTo: "shell", apart_mm: told.apart.mm[first] ?? 0, cut_mm: 0, quantity: null, patterned: strong(), inside: null };
    this.readings = new Readings(told, words);
    this.over = new Over(told);
    const canvas = made("canvas");
    canvas.tabIndex = 0;
    canvas.setAttribute("role", "application");
    canvas.setAttribute("aria-label", words["view"] ?? "");
    this.stage.append(canvas, this.over.box);
    this.layered = this.layers();
    const acts = made("div", "line acts");
    acts.append(this.patterns(), this.measure());
    into.append(this.colors(), this.layered, this.stage, this.rules(first), this.looks(), acts, this.readings.box, this.below);
    const packing = told.quantities.find((one) => one.name === "packed") ?? null;
    this.view = new View(canvas, solids, packing, (place) => void this.read(place), () => this.lay());
    this.watchLook();
    this.printed();
    this.change({});
  }

  private lay(): void {
    this.over.lay(this.view, this.shown, this.readings);
  }

  private change(what: Partial<Shown>): void {
    Object.assign(this.shown, what);
    this.view.show(this.shown);
    const { quantity, patterned } = this.shown;
    if (quantity === this.told_of?.quantity && patterned === this.told_of.patterned) return;
    this.told_of = { quantity, patterned };
    this.below.replaceChildren(quantity ? legend(quantity, this.words, patterned, (end) => this.lookAt(quantity, end)) : this.coats());
  }

  private async read(place: Parameters<Readings["press"]>[0]): Promise<void> {
    await this.readings.press(place);
    this.view.draw();
  }

  private colors(): HTMLElement {
    const every = this.told.quantities.map((one) => ({ name: one.name, words: one.title }));
    const all = [{ name: "", words: this.words["coats"] ?? "" }, ...every];
    return choices(this.words["color"] ?? "", all, "", (name) => this.change({ quantity: this.quantity(name) }));
  }

  private quantity(name: string): Quantity | null {
    return this.told.quantities.find((one) => one.name === name) ?? null;
  }

  private layers(): HTMLElement {
    const inner = this.told.parts.filter((part) => !["shell", "mount"].includes(part.kind));
    const every = inner.map((part) => ({ name: part.id, words: part.name }));
    const all = [...every, { name: "shell", words: this.words["shell"] ?? "" }];
    return choices(this.words["show"] ?? "", all, "shell", (upTo) => this.change({ upTo, inside: null }));
  }

  private rules(first: number): HTMLElement {
    const { apart, cut } = this.told;
    const box = made("div", "rules");
    box.append(
      rule(this.words["apart"] ?? "", [this.words["closed"] ?? "", ...apart.told.slice(1)], first, (stop) => this.change({ apart_mm: apart.mm[stop] ?? 0 })),
      rule(this.words["cut"] ?? "", [this.words["whole"] ?? "", ...cut.told.slice(1)], 0, (stop) => this.change({ cut_mm: cut.mm[stop] ?? 0 })),
    );
    return box;
  }

  private looks(): HTMLElement {
    const sides = Object.keys(SIDES).map((name) => ({ name, words: this.words[name] ?? "" }));
    const pieces = this.told.parts.filter((part) => part.kind === "shell");
    const inside = pieces.map((part, n) => ({ name: part.id, words: (this.words["inside"] ?? "").replace("{n}", String(n + 1)) }));
    const line = choices(this.words["look"] ?? "", [...sides, ...inside], "none", (name) => {
      press(line, "none");
      this.look(name);
    });
    return line;
  }

  private look(name: string): void {
    const side = SIDES[name];
    const draw = this.view.pieces().find((body) => body.solid.id === name)?.solid.draw;
    this.change({ inside: draw ? name : null });
    if (side) this.view.turning.look(...side);
    else if (draw) this.view.turning.look(Math.atan2(-(draw[0] ?? 0), draw[1] ?? 1), Math.asin(-(draw[2] ?? 0)));
  }

  /** The place is looked at, and what hides it laid aside. */
  private lookAt(quantity: Quantity, end: End): void {
    const body = this.view.bodies.find((one) => one.solid.id === quantity.part);
    if (!body) return;
    press(this.layered, quantity.part);
    this.change({ upTo: quantity.part, inside: null });
    this.view.lookAt(body, end.corner);
    this.stage.scrollIntoView({ block: "nearest" });
  }

  private measure(): HTMLElement {
    return toggle(this.words["measure"] ?? "", false, (on) => {
      this.readings.measuring = on;
      this.readings.clear();
      this.view.draw();
    });
  }

  private patterns(): HTMLElement {
    return toggle(this.words["patterns"] ?? "", this.shown.patterned, (patterned) => this.change({ patterned }));
  }

  /** The coats' own legend: a swatch each. */
  private coats(): HTMLElement {
    const box = made("figure", "leaves");
    const list = made("ul", "swatches");
    const coats = this.told.parts.filter((part) => part.kind === "coat");
    coats.forEach((part, n) => {
      const item = made("li");
      const own = this.shown.patterned ? (OF_COATS[n % OF_COATS.length] ?? PLAIN) : PLAIN;
      item.append(swatch(token(`coat${(n % 3) + 1}`), own), `${part.name} ${part.line}`);
      list.append(item);
    });
    box.append(made("figcaption", "", this.words["coats_told"]), list);
    return box;
  }

  /** A canvas stays empty on paper: a picture of it lies there. */
  private printed(): void {
    const picture = made("img", "on-paper");
    picture.alt = this.words["on_paper"] ?? "";
    this.stage.append(picture);
    addEventListener("beforeprint", () => {
      picture.src = this.view.picture();
    });
  }

  private watchLook(): void {
    const again = (): void => {
      this.view.color();
      this.view.draw();
      this.told_of = null;
      this.change({});
    };
    new MutationObserver(again).observe(document.documentElement, { attributeFilter: ["data-look"] });
    for (const query of ["(prefers-color-scheme: dark)", "(prefers-contrast: more)"])
      matchMedia(query).addEventListener("change", again);
  }
}

/** Whether the look is the one of high contrast. */
function strong(): boolean {
  return document.documentElement.dataset["look"] === "contrast" || matchMedia("(prefers-contrast: more)").matches;
}
