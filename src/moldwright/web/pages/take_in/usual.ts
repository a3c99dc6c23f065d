/** Parts of the form that are folded tell in one line what holds: what is answered, else what is usual. */

const NARROW = "(max-width: 51.24em)";
const BARE = /^[\d.,\/ ½¼¾]+$/;

/** Say of every folded answer what stands in its field now. */
export function tellUsual(page: HTMLElement): void {
  for (const line of page.querySelectorAll<HTMLElement>("[data-usual]")) {
    const field = page.querySelector<HTMLElement>(`.field[data-field="${line.dataset["usual"]}"]`);
    if (field) tell(line, field);
  }
}

/** On a narrow screen parts of a section in which nothing stands are folded. */
export function foldNarrow(page: HTMLElement): void {
  if (!window.matchMedia(NARROW).matches) return;
  for (const part of page.querySelectorAll<HTMLDetailsElement>("details[data-within]"))
    part.open = [...part.querySelectorAll<HTMLInputElement>("input, select")].some((one) => one.value !== "");
}

function tell(line: HTMLElement, field: HTMLElement): void {
  const asked = field.querySelector<HTMLInputElement | HTMLSelectElement>("[data-key]")!;
  const told = asked instanceof HTMLSelectElement ? chosen(asked) : typed(asked, field);
  line.hidden = !told;
  line.classList.toggle("own", asked.value !== "");
  line.querySelector("b")!.textContent = told;
}

function chosen(list: HTMLSelectElement): string {
  const one = list.selectedOptions[0];
  return one ? (one.dataset["plain"] ?? one.text) : "";
}

function typed(asked: HTMLInputElement, field: HTMLElement): string {
  const told = asked.value.trim() || asked.placeholder;
  const unit = field.querySelector(".unit")?.textContent ?? "";
  return unit && BARE.test(told) ? `${told} ${unit}` : told;
}
