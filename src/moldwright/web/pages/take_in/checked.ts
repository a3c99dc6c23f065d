/** What is wrong with the answers, beside the field that it is about, and what can ruin the job. */

import { placeOf } from "./place";

/** A refusal: the key that it is about, what its field is called, and what may be written there; "": nothing told. */
interface Wrong {
  key: string;
  field: string;
  to: string;
  code: string;
  found: string;
  wanted: string;
  remedy: string;
}

/** What the desk tells of the answers (`told.py`). */
export interface Checked {
  wrong: Wrong[];
  cautions: { severity: string; text: string }[];
  rubber: string;
  ready: boolean;
}

/** Codes of what is only not said yet: they are told when one wants to take it in, not while one begins. */
const NOT_YET = ["original-untold"];

/** Show it; what is merely not said yet is told once something was. */
export function showCheck(page: HTMLElement, told: Checked): void {
  for (const field of page.querySelectorAll<HTMLElement>(".field.wrong")) mend(field);
  for (const cell of page.querySelectorAll("[data-cell][aria-invalid]")) cell.removeAttribute("aria-invalid");
  const rest = told.wrong.filter((one) => !beside(page, one));
  page.querySelector(".wrongs")!.replaceChildren(...rest.map((one) => bar(page, one)));
  const cautions = page.querySelector<HTMLElement>(".before")!;
  cautions.hidden = told.cautions.length === 0;
  cautions.querySelector(".cautions")!.replaceChildren(...told.cautions.map((one) => caution(page, one.text)));
  const rubber = page.querySelector<HTMLElement>(".rubber")!;
  rubber.hidden = !told.rubber;
  rubber.querySelector("strong")!.textContent = told.rubber;
  const fresh = rest.every((one) => NOT_YET.includes(one.code));
  page.querySelector(".wrongs")!.classList.toggle("not-yet", fresh);
}

function beside(page: HTMLElement, one: Wrong): boolean {
  const field = placeOf(page, one.key)?.closest<HTMLElement>(".field[data-field]");
  const line = field?.querySelector<HTMLElement>(".remedy");
  if (!field || !line) return false;
  field.classList.add("wrong");
  field.closest("details")?.setAttribute("open", "");
  line.textContent = `${one.found}. ${one.remedy}`;
  if (one.to) line.append(" ", setting(one));
  line.hidden = false;
  field.querySelector("[data-key]")?.setAttribute("aria-invalid", "true");
  return true;
}

function mend(field: HTMLElement): void {
  field.classList.remove("wrong");
  field.querySelector<HTMLElement>(".remedy")!.hidden = true;
  field.querySelector("[data-key]")?.removeAttribute("aria-invalid");
}

function bar(page: HTMLElement, one: Checked["wrong"][number]): HTMLElement {
  const made = copy(page, "wrong");
  made.tabIndex = -1;
  made.querySelector(".found")!.textContent = one.found;
  made.querySelector<HTMLElement>(".wanted")!.hidden = !one.wanted;
  made.querySelector(".wanted span")!.textContent = one.wanted;
  made.querySelector(".remedy")!.textContent = one.remedy;
  const place = placeOf(page, one.key);
  if (place?.dataset["cell"]) place.setAttribute("aria-invalid", "true");
  const lead = made.querySelector<HTMLElement>(".lead")!;
  lead.hidden = !place;
  lead.querySelector("button")!.replaceWith(one.to ? setting(one) : leading(one));
  return made;
}

/** A press writes what the remedy tells. */
function setting(one: Wrong): HTMLElement {
  const button = leading(one);
  button.textContent = `${one.field}: ${one.to}`;
  delete button.dataset["lead"];
  button.dataset["set"] = one.key;
  button.dataset["value"] = one.to;
  return button;
}

/** A press leads to the place. */
function leading(one: Wrong): HTMLElement {
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = one.field;
  button.dataset["lead"] = one.key;
  return button;
}

function caution(page: HTMLElement, text: string): HTMLElement {
  const made = copy(page, "caution");
  made.querySelector(".says")!.textContent = text;
  return made;
}

function copy(page: HTMLElement, which: string): HTMLElement {
  const template = page.querySelector<HTMLTemplateElement>(`template[data-bar="${which}"]`)!;
  return template.content.firstElementChild!.cloneNode(true) as HTMLElement;
}
