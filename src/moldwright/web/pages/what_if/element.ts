/** What if: other values tried, kept or put back. */

import "../../parts/work";

import { saying } from "../../parts/said";
import { send } from "../../parts/send";

/** `<mw-what-if>`: the whole page; each act holds the path that it calls. */
export class WhatIf extends HTMLElement {
  connectedCallback(): void {
    this.addEventListener("submit", (event) => void this.#tried(event));
    this.addEventListener("click", (event) => void this.#pressed(event));
  }

  async #tried(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const form = event.target as HTMLFormElement;
    const { count, pieces, ...rest } = Object.fromEntries(new FormData(form).entries());
    await saying(form, async () => {
      const shell = pieces ? { pieces: Number(pieces) } : {};
      await send("POST", form.dataset["path"]!, { ...rest, ...shell, count: Number(count) });
      window.location.reload();
    });
  }

  async #pressed(event: Event): Promise<void> {
    const button = event.target instanceof Element ? event.target.closest<HTMLElement>("button[data-then]") : null;
    if (!button) return;
    await saying(button.closest(".sheet") ?? this, async () => {
      await send("POST", button.dataset["path"]!);
      window.location.assign(button.dataset["then"]!);
    });
  }
}

customElements.define("mw-what-if", WhatIf);
