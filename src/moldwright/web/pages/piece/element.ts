/** A piece: planned anew, changed, put away, taken to the bench. */

import "../../parts/work";

import { saying } from "../../parts/said";
import { send } from "../../parts/send";

/** `<mw-piece>`: the whole page; each act holds the path that it calls. One act at a time: what is pressed twice is done once. */
export class PiecePage extends HTMLElement {
  #busy = false;

  connectedCallback(): void {
    this.addEventListener("click", (event) => this.#pressed(event));
    this.addEventListener("change", (event) => this.#chosen(event));
    this.addEventListener("submit", (event) => void this.#submitted(event));
  }

  #pressed(event: Event): void {
    const button = event.target instanceof Element ? event.target.closest<HTMLElement>("button[data-path]") : null;
    if (!button || button.closest("mw-work")) return;
    const place = button.closest(".sheet, .error") ?? this;
    void this.#once(place, async () => {
      const told: { path?: string } = await send("POST", button.dataset["path"]!, {});
      if (told.path) window.location.assign(told.path);
      else window.location.reload();
    });
  }

  /** What a new edition is asked for stands where one is to be opened. */
  #chosen(event: Event): void {
    const select = event.target;
    if (!(select instanceof HTMLSelectElement) || select.name !== "edition") return;
    const fields = select.form!.querySelector<HTMLFieldSetElement>(".opens");
    if (fields) fields.hidden = fields.disabled = !opening(select);
  }

  async #once(place: Element, act: () => Promise<void>): Promise<void> {
    if (this.#busy) return;
    this.#busy = true;
    await saying(place, act).finally(() => (this.#busy = false));
  }

  async #submitted(event: SubmitEvent): Promise<void> {
    const form = event.target as HTMLFormElement;
    const edition = form.querySelector<HTMLSelectElement>("select[name='edition']");
    const opens = edition && opening(edition);
    const path = opens ?? form.dataset["path"];
    if (!path) return;
    event.preventDefault();
    const told = new FormData(form);
    const number = (name: string): number | undefined => {
      const text = String(told.get(name) ?? "").trim();
      return text ? Number(text) : undefined;
    };
    const asked = {
      casts: number("casts") ?? null,
      batch: number("batch") ?? 1,
      mold: told.get("mold") ?? "",
      ...(opens ? { name: told.get("name") ?? "", size: number("size") ?? 0 } : { edition: told.get("edition") ?? "" }),
    };
    await this.#once(form, async () => {
      const made: { path: string } = await send("POST", path, asked);
      window.location.assign(made.path);
    });
  }
}

/** Where a run begins together with the edition that is chosen; nothing for one that there is. */
function opening(select: HTMLSelectElement): string | undefined {
  return select.selectedOptions[0]?.dataset["path"];
}

customElements.define("mw-piece", PiecePage);
