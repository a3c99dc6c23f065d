/** What if: other values tried, kept or put back. */

import "../../parts/work";

import { saying } from "../../parts/said";
import { send } from "../../parts/send";

/** `<mw-what-if data-piece>`: the whole page. */
export class WhatIf extends HTMLElement {
  connectedCallback(): void {
    this.addEventListener("submit", (event) => void this.#tried(event));
    this.addEventListener("click", (event) => void this.#pressed(event));
  }

  get #home(): string {
    return `/api/pieces/${this.dataset["piece"]}/trial`;
  }

  async #tried(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const form = event.target as HTMLFormElement;
    const { count, ...rest } = Object.fromEntries(new FormData(form).entries());
    await saying(form, async () => {
      await send("POST", this.#home, { ...rest, count: Number(count) });
      window.location.reload();
    });
  }

  async #pressed(event: Event): Promise<void> {
    const button = event.target instanceof Element ? event.target.closest<HTMLElement>("button[data-act]") : null;
    const act = button?.dataset["act"];
    if (!button || (act !== "keep" && act !== "back")) return;
    await saying(button.closest(".sheet") ?? this, async () => {
      await send("POST", `${this.#home}/${act}`);
      window.location.assign(act === "keep" ? `/pieces/${this.dataset["piece"]}/mold` : window.location.pathname);
    });
  }
}

customElements.define("mw-what-if", WhatIf);
