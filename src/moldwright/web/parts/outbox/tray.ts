/** The tray in the bar: whether everything written on this device is kept by the server, and what still waits here. */

import { again, all, changes, takeOff, type Entry } from "./entries";
import { sender } from "./sending";

const MINUTE_MS = 60_000;

/** Its sentences stand in its attributes, as the server said them. */
export class Tray extends HTMLElement {
  private readonly told = document.createElement("span");
  private readonly trouble = document.createElement("div");

  connectedCallback(): void {
    this.classList.add("tray");
    this.told.setAttribute("role", "status");
    this.trouble.setAttribute("role", "alert");
    this.append(this.told, this.trouble);
    const show = (): void => void this.show();
    changes.addEventListener("change", show);
    sender.addEventListener("state", show);
    setInterval(show, MINUTE_MS / 4);
    sender.start();
    show();
  }

  private async show(): Promise<void> {
    const entries = await all().catch((): Entry[] => []);
    const refused = entries.filter((entry) => entry.refused);
    const waiting = entries.length - refused.length;
    this.classList.toggle("waits", waiting > 0 || sender.way !== "open" || refused.length > 0);
    this.told.textContent = this.sentence(waiting);
    this.trouble.replaceChildren(...refused.map((entry) => this.refusal(entry)));
  }

  private sentence(waiting: number): string {
    const words = this.dataset;
    const minutes = Math.max(0, Math.floor((performance.now() - sender.since) / MINUTE_MS));
    const count = !waiting ? "" : waiting === 1 ? (words["one"] ?? "") : (words["many"] ?? "").replace("{count}", String(waiting));
    if (sender.way === "signed-out") return [words["signedOut"], count].filter(Boolean).join(" ");
    if (sender.way === "no-answer") return [(words["away"] ?? "").replace("{minutes}", String(minutes)), count].filter(Boolean).join(" ");
    return count || (words["kept"] ?? "");
  }

  private refusal(entry: Entry): HTMLElement {
    const line = document.createElement("section");
    line.className = "error";
    const what = document.createElement("p");
    what.textContent = [this.dataset["refused"], `${entry.words}.`, entry.refused?.found, entry.refused?.remedy].filter(Boolean).join(" ");
    line.append(what, this.button("again", () => again(entry)), this.button("drop", () => takeOff(entry)));
    return line;
  }

  private button(words: string, act: () => Promise<void>): HTMLElement {
    const made = document.createElement("button");
    made.textContent = this.dataset[words] ?? "";
    made.addEventListener("click", () => void act());
    return made;
  }
}

customElements.define("mw-tray", Tray);
