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

/** Words of which one is chosen; it is underlined. */
export function choices(label: string, every: readonly Choice[], chosen: string, take: (name: string) => void): HTMLElement {
  const group = made("div", "line");
  group.setAttribute("role", "group");
  group.setAttribute("aria-label", label);
  group.append(made("span", "of", label));
  for (const { name, words } of every) {
    const button = made("button", "tab", words);
    button.type = "button";
    button.dataset["name"] = name;
    button.addEventListener("click", () => {
      press(group, name);
      take(name);
    });
    group.append(button);
  }
  press(group, chosen);
  return group;
}

/** Shows one of them as chosen. */
export function press(group: HTMLElement, name: string): void {
  for (const button of group.querySelectorAll<HTMLButtonElement>("button"))
    button.setAttribute("aria-pressed", String(button.dataset["name"] === name));
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
