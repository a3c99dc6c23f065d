/** A recipe that is typed in: its parts row by row, one more where one presses. */

import { Act } from "../../parts/act";

class RecipeTyped extends Act {
  override connectedCallback(): void {
    super.connectedCallback();
    const more = this.querySelector<HTMLButtonElement>("[data-more]")!;
    more.addEventListener("click", () => this.add(more));
  }

  protected override async body(form: HTMLFormElement): Promise<Record<string, unknown>> {
    const typed = (row: Element, which: string): string => row.querySelector<HTMLInputElement>(which)!.value.trim();
    const parts = [...this.querySelectorAll(".part")].map((row) => ({ what: typed(row, "[data-what]"), mass: typed(row, "[data-mass]"), own: null }));
    return { ...(await super.body(form)), parts: parts.filter((part) => part.what || part.mass) };
  }

  private add(before: Element): void {
    const rows = this.querySelectorAll(".part");
    const fresh = rows[rows.length - 1]!.cloneNode(true) as HTMLElement;
    const number = String(rows.length + 1);
    for (const label of fresh.querySelectorAll("label")) {
      label.htmlFor = label.htmlFor.replace(/\d+$/, number);
      label.textContent = label.textContent!.replace(/\d+/, number);
    }
    for (const input of fresh.querySelectorAll("input")) {
      input.id = input.id.replace(/\d+$/, number);
      input.value = "";
    }
    before.before(fresh);
    fresh.querySelector("input")!.focus();
  }
}

if (!customElements.get("mw-recipe-typed")) customElements.define("mw-recipe-typed", RecipeTyped);
