/** Small parts of the page, made of words that the server told. */

export function made<K extends keyof HTMLElementTagNameMap>(tag: K, className = "", text = ""): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  if (className) element.className = className;
  if (text) element.textContent = text;
  return element;
}

export interface Choice {
  readonly name: string;
  readonly words: string;
}

/** Words of which one is chosen; it is underlined. Where there is little room they fold under their label. */
export function choices(label: string, every: readonly Choice[], chosen: string, take: (name: string) => void): HTMLDetailsElement {
  const box = made("details", "fold");
  const line = made("div", "line");
  line.setAttribute("role", "group");
  line.setAttribute("aria-label", label);
  line.append(made("span", "of", label));
  for (const { name, words } of every) {
    const button = made("button", "tab", words);
    button.type = "button";
    button.dataset["name"] = name;
    button.addEventListener("click", () => {
      press(box, name);
      take(name);
      if (NARROW.matches) fold(box);
    });
    line.append(button);
  }
  const summary = made("summary", "", label);
  summary.append(made("strong", "chosen"));
  box.append(summary, line);
  unfoldWhereWide(box);
  press(box, chosen);
  return box;
}

const NARROW = matchMedia("(max-width: 51.25em)");

function unfoldWhereWide(box: HTMLDetailsElement): void {
  const lay = (): void => {
    box.open = !NARROW.matches;
  };
  NARROW.addEventListener("change", lay);
  lay();
}

/** Folded once one is chosen; the keyboard stays here. */
function fold(box: HTMLDetailsElement): void {
  box.open = false;
  box.querySelector("summary")?.focus();
}

/** Shows one of them as chosen. */
export function press(box: HTMLElement, name: string): void {
  const told = box.querySelector(".chosen");
  if (told) told.textContent = "";
  for (const button of box.querySelectorAll<HTMLButtonElement>("button[data-name]")) {
    const chosen = button.dataset["name"] === name;
    button.setAttribute("aria-pressed", String(chosen));
    if (chosen && told) told.textContent = button.textContent;
  }
}

/** A word that is on or off. */
export function toggle(words: string, on: boolean, take: (on: boolean) => void): HTMLButtonElement {
  const button = made("button", "tab own-act", words);
  button.type = "button";
  button.setAttribute("aria-pressed", String(on));
  button.addEventListener("click", () => {
    const next = button.getAttribute("aria-pressed") !== "true";
    button.setAttribute("aria-pressed", String(next));
    take(next);
  });
  return button;
}

/** A rule with a slide that stops where the server has words for it. */
export function rule(label: string, told: readonly string[], at: number, moved: (stop: number) => void): HTMLElement {
  const line = made("label", "rule");
  const slide = made("input");
  const reads = made("output", "reads", told[at] ?? "");
  slide.type = "range";
  slide.max = String(told.length - 1);
  slide.value = String(at);
  slide.setAttribute("aria-valuetext", told[at] ?? "");
  slide.addEventListener("input", () => {
    reads.textContent = told[slide.valueAsNumber] ?? "";
    slide.setAttribute("aria-valuetext", reads.textContent);
    moved(slide.valueAsNumber);
  });
  line.append(made("span", "of", label), slide, reads);
  return line;
}
