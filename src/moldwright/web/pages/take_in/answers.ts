/** What stands in the fields, as it was typed; the desk reads it. */

type Row = Record<string, unknown>;

/** Every answer by its key of the commission. */
export function answers(page: HTMLElement): Row {
  const found: Row = {};
  for (const field of page.querySelectorAll<HTMLInputElement>("[data-key]"))
    if (field.value || !found[field.dataset["key"]!]) found[field.dataset["key"]!] = field.value;
  const scan = page.querySelector("[data-there='scan']")?.textContent?.trim();
  if (scan) found["original.file"] = scan;
  if (page.querySelector("[data-there='photos']")?.textContent?.trim()) found["original.photos"] = "photos";
  const levels = rows(page.querySelector("[data-rows='levels']"));
  if (levels.length) found["original.tape"] = tape(page, levels);
  const told = bowls(page);
  if (told.length) found["original.bowls"] = told;
  return found;
}

/** What is no key of a commission. */
export function beside(page: HTMLElement): Row {
  const found: Row = { way: way(page) };
  for (const field of page.querySelectorAll<HTMLInputElement>("[data-beside]"))
    found[field.dataset["beside"]!] = field.value;
  const where = page.querySelectorAll<HTMLInputElement>("[data-rows='levels'] [data-where]");
  found["where"] = [...where].map((each) => each.value);
  return found;
}

/** By what the piece is known. */
export function way(page: HTMLElement): string {
  return page.querySelector<HTMLInputElement>("input[name='way']:checked")?.value ?? "scan";
}

/** Show the questions of one way to know a piece. */
export function show(page: HTMLElement, chosen: string): void {
  for (const part of page.querySelectorAll<HTMLElement>(".sheet.way")) part.hidden = part.dataset["way"] !== chosen;
  if (chosen === "water") page.querySelector(".also")!.setAttribute("open", "");
  page.querySelector<HTMLElement>(".tape-drawn")!.hidden = chosen !== "tape";
  page.querySelector<HTMLElement>(".looked")!.hidden = chosen === "tape" || chosen === "water";
}

function tape(page: HTMLElement, levels: Row[]): Row {
  const found: Row = { levels };
  for (const field of page.querySelectorAll<HTMLSelectElement>("[data-tape]"))
    if (field.value) found[field.dataset["tape"]!] = field.value;
  const limbs = [...page.querySelectorAll<HTMLElement>("[data-limb]")].map((limb) => ({
    ...cells(limb, "[data-cell]"),
    levels: rows(limb.querySelector("[data-rows]")),
  }));
  if (limbs.length) found["limbs"] = limbs;
  return found;
}

/** Rows in which something was read; a height alone is none yet. */
function rows(table: Element | null): Row[] {
  return filled(table).map((row) => cells(row, "[data-cell]"));
}

/** The rows in which something was read. */
export function filled(table: Element | null): HTMLElement[] {
  const every = [...(table?.querySelectorAll<HTMLElement>("[data-row]") ?? [])];
  return every.filter((row) => Object.keys(cells(row, "[data-cell]")).some((name) => name !== "at"));
}

/** Answers on bowls; while the photos are looked at anew nothing asks for them, and what was answered stays. */
function bowls(page: HTMLElement): Row[] {
  const asked = [...page.querySelectorAll<HTMLElement>("[data-bowl]")];
  if (asked.length) page.dataset["bowls"] = JSON.stringify(asked.map(bowl).filter((one) => one["depth"]));
  return JSON.parse(page.dataset["bowls"] || "[]") as Row[];
}

function bowl(place: HTMLElement): Row {
  return { name: place.dataset["bowl"], ...cells(place, "[data-cell]") };
}

function cells(place: Element, which: string): Row {
  const found: Row = {};
  for (const field of place.querySelectorAll<HTMLInputElement>(which)) {
    const inner = field.closest("[data-row]");
    if (inner && inner !== place) continue;
    if (field.value.trim()) found[field.dataset["cell"]!] = field.value;
  }
  return found;
}
