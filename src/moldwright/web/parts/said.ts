/** Shows what went wrong beside where it was asked for: the error bar with its remedy, in words that the server wrote. */

import { NoAnswer, Refused } from "./refused";

const SHOWN = "said-error";

/** Tell an error above `place`'s own contents and put the focus there; what is no refusal goes on as a fault. */
export function said(error: unknown, place: Element): void {
  const bar = error instanceof Refused ? refused(error) : error instanceof NoAnswer ? from("said-no-answer") : null;
  if (!bar) throw error;
  unsaid(place);
  bar.classList.add(SHOWN);
  place.prepend(bar);
  bar.focus();
}

/** Take away what was told there. */
export function unsaid(place: Element): void {
  for (const bar of place.querySelectorAll(`:scope > .${SHOWN}`)) bar.remove();
}

/** Do something that may be refused: what was told there before goes, a refusal is told. Gives undefined for one. */
export async function saying<T>(place: Element, what: () => Promise<T>): Promise<T | undefined> {
  unsaid(place);
  try {
    return await what();
  } catch (error) {
    said(error, place);
    return undefined;
  }
}

function refused(error: Refused): HTMLElement {
  const bar = from("said");
  fill(bar, ".found", error.said.found);
  fill(bar, ".wanted span", error.said.wanted);
  fill(bar, ".remedy", error.remedy);
  fill(bar, ".way a", error.said.way);
  bar.querySelector<HTMLAnchorElement>(".way a")!.href = error.said.path || "/";
  bar.querySelector<HTMLElement>(".way")!.hidden = !error.said.path;
  bar.querySelector<HTMLElement>(".wanted")!.hidden = !error.said.wanted;
  bar.querySelector<HTMLElement>(".door")!.hidden = error.status !== 401;
  return bar;
}

function fill(bar: HTMLElement, which: string, text: string): void {
  bar.querySelector(which)!.textContent = text;
}

function from(id: string): HTMLElement {
  const template = document.querySelector<HTMLTemplateElement>(`#${id}`)!;
  return template.content.firstElementChild!.cloneNode(true) as HTMLElement;
}
