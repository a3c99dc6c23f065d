/** An act on a record: its fields are sent, what was done is told in the same place, and can be put back from there. */

import { freshen } from "./fresh";
import { saying } from "./said";
import { send } from "./send";

type Typed = Record<string, unknown>;

/** A file that was chosen is kept first; what is sent is its hash. */
async function kept(file: File): Promise<string> {
  const answer = await send("PUT", `/api/files?name=${encodeURIComponent(file.name)}`, file);
  return String(answer.file);
}

export class Act extends HTMLElement {
  connectedCallback(): void {
    this.querySelector("form")!.addEventListener("submit", (event) => {
      event.preventDefault();
      void this.press();
    });
    this.querySelector<HTMLElement>(".outcome .put-back")?.addEventListener("click", () => void this.putBack());
  }

  /** What is sent: the fields as they were typed; a choice named `also` stands for several, as JSON. */
  protected async body(form: HTMLFormElement): Promise<Typed> {
    const told: Typed = {};
    for (const [name, value] of new FormData(form)) {
      if (name === "also" && typeof value === "string") Object.assign(told, JSON.parse(value));
      else if (typeof value === "string") told[name] = value;
      else if (value.size) told[name] = await kept(value);
    }
    return told;
  }

  private async press(): Promise<void> {
    const form = this.querySelector("form")!;
    const button = form.querySelector<HTMLButtonElement>("button:not([type=button])")!;
    if (button.getAttribute("aria-disabled")) return;
    button.setAttribute("aria-disabled", "true");
    const answer = await saying(this, async () => send(this.dataset.method ?? "POST", this.dataset.path!, await this.body(form)));
    button.removeAttribute("aria-disabled");
    if (!answer) return;
    form.reset();
    this.told(answer);
    if (!(await freshen())) location.reload();
  }

  private told(answer: { said?: string; event?: string }): void {
    const outcome = this.querySelector<HTMLElement>(".outcome")!;
    const back = outcome.querySelector<HTMLButtonElement>(".put-back")!;
    this.querySelector("details")?.removeAttribute("open");
    outcome.querySelector(".said")!.textContent = answer.said ?? "";
    outcome.dataset.event = answer.event ?? "";
    back.hidden = !this.dataset.strike || !answer.event;
    outcome.hidden = false;
    this.dispatchEvent(new CustomEvent("act-done", { bubbles: true, detail: answer }));
  }

  private async putBack(): Promise<void> {
    const event = this.querySelector<HTMLElement>(".outcome")!.dataset.event!;
    const path = this.dataset.strike!.replace("EVENT", encodeURIComponent(event));
    const answer = await saying(this, () => send("POST", path, {}));
    if (!answer) return;
    this.told({ said: answer.said });
    if (!(await freshen())) location.reload();
  }
}

if (!customElements.get("mw-act")) customElements.define("mw-act", Act);
