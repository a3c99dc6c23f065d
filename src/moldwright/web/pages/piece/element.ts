/** A piece: planned anew, changed, put away, taken to the bench. */

import "../../parts/work";

import { saying } from "../../parts/said";
import { send } from "../../parts/send";

/** `<mw-piece>`: the whole page; each act holds the path that it calls. One act at a time: what is pressed twice is done once. */
export class PiecePage extends HTMLElement {
  #busy = false;

  connectedCallback(): void {
    this.addEventListener("click", (event) => this.#pressed(event));
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

  async #once(place: Element, act: () => Promise<void>): Promise<void> {
    if (this.#busy) return;
    this.#busy = true;
    await saying(place, act).finally(() => (this.#busy = false));
  }

  async #submitted(event: SubmitEvent): Promise<void> {
    const form = event.target as HTMLFormElement;
    const path = form.dataset["path"];
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
      edition: told.get("edition") ?? "",
    };
    await this.#once(form, async () => {
      const made: { path: string } = await send("POST", path, asked);
      window.location.assign(made.path);
    });
  }
}

customElements.define("mw-piece", PiecePage);
