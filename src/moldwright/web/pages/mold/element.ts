/** The mold, seen: `<mw-mold data-plan=… data-solids=…>` around its words and its stand-in for where nothing can be drawn. */

import { made } from "./made";
import { readSolids } from "./solids";
import { asked, type Told, type Words } from "./told";

export class Mold extends HTMLElement {
  connectedCallback(): void {
    const words = JSON.parse(this.querySelector(".words")?.textContent ?? "{}") as Words;
    if (draws()) void this.begin(words);
    else this.stand(words["none"] ?? "");
  }

  private async begin(words: Words): Promise<void> {
    this.say(words["working"] ?? "");
    try {
      const room = import("./room");
      const made = this.dataset["solids"] ?? "";
      const ahead = made ? fetched(made) : null;
      const told = await asked<Told>(this.dataset["plan"] ?? "");
      const file = await (ahead && told.solids === made ? ahead : fetched(told.solids));
      const { furnish } = await room;
      const solids = readSolids(file);
      this.querySelector(".stand-in")?.remove();
      this.querySelector(".said")?.remove();
      furnish(this, told, solids, words);
    } catch (error) {
      this.stand(`${words["failed"]} ${error instanceof Error ? error.message : ""}`);
      const again = made("button", "", words["again"]);
      again.addEventListener("click", () => void this.begin(words));
      this.querySelector(".said")?.append(again);
    }
  }

  /** The pictures stay, and the tables are opened. */
  private stand(sentence: string): void {
    this.say(sentence);
    this.parentElement?.querySelector("details")?.setAttribute("open", "");
  }

  private say(sentence: string): void {
    this.querySelector(".said")?.remove();
    const said = made("p", "said", sentence);
    said.setAttribute("role", "status");
    this.prepend(said);
  }
}

async function fetched(path: string): Promise<ArrayBuffer> {
  const answer = await fetch(path);
  if (!answer.ok) throw new Error(answer.statusText);
  return answer.arrayBuffer();
}

function draws(): boolean {
  return document.createElement("canvas").getContext("webgl2") !== null;
}

customElements.define("mw-mold", Mold);
