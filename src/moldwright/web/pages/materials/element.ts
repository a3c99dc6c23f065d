/** A sheet of the shop's own is read here and sent to be checked; what was found is told under it. */

import { saying } from "../../parts/said";
import { send } from "../../parts/send";

interface Found {
  readonly grave: boolean;
  readonly where: string;
  readonly found: string;
  readonly wanted: string;
  readonly remedy: string;
}

class SheetCheck extends HTMLElement {
  connectedCallback(): void {
    const text = this.querySelector<HTMLTextAreaElement>("#text")!;
    this.querySelector<HTMLInputElement>("#file")!.addEventListener("change", (event) => {
      void (event.target as HTMLInputElement).files?.[0]?.text().then((read) => (text.value = read));
    });
    this.querySelector("form")!.addEventListener("submit", (event) => {
      event.preventDefault();
      void this.go(text.value);
    });
  }

  private async go(text: string): Promise<void> {
    const told = await saying(this, () => send("POST", "/api/materials/check", { text }));
    const place = this.querySelector<HTMLElement>(".found")!;
    place.hidden = told === undefined;
    if (told === undefined) return;
    place.querySelector(".said-found")!.textContent = String(told["said"]);
    place.querySelector(".findings")!.replaceChildren(...(told["findings"] as Found[]).map((each) => this.row(each)));
  }

  private row(found: Found): DocumentFragment {
    const made = this.querySelector("template")!.content.cloneNode(true) as DocumentFragment;
    const wanted = document.querySelector<HTMLElement>("[data-wanted]")!.dataset["wanted"]!;
    made.querySelector("li")!.classList.toggle("grave", found.grave);
    made.querySelector(".where")!.textContent = found.where;
    made.querySelector(".found-there")!.textContent = found.found;
    made.querySelector(".wanted")!.textContent = found.wanted && wanted.replace("{wanted}", found.wanted);
    made.querySelector(".remedy")!.textContent = found.remedy;
    return made;
  }
}

customElements.define("mw-sheet-check", SheetCheck);
