/** Long work, kept up to date while one looks; it goes on by itself when nobody does. */

import { saying, unsaid } from "./said";
import { send } from "./send";

const OFTEN_MS = 700;
const PATIENT_MS = 3000;

/** What the desk tells of long work (`web/long_work/told.py`). */
export interface LongWork {
  id: string;
  state: string;
  over: boolean;
  said: string;
  done: number;
  of: number;
  clock: string;
  result: any;
  error: any;
}

/** `<mw-work data-id>`: its cells and words follow the work; it sends "ended" with the work when that is over. */
export class WorkShown extends HTMLElement {
  #timer = 0;

  connectedCallback(): void {
    this.addEventListener("click", (event) => this.#pressed(event));
    if (!this.#over) this.#again(OFTEN_MS);
  }

  disconnectedCallback(): void {
    window.clearTimeout(this.#timer);
  }

  get #over(): boolean {
    return !["waiting", "working"].includes(this.dataset["state"] ?? "");
  }

  #again(after_ms: number): void {
    window.clearTimeout(this.#timer);
    this.#timer = window.setTimeout(() => void this.#follow(), after_ms);
  }

  async #follow(): Promise<void> {
    let told: LongWork;
    try {
      told = await send("GET", `/api/work/${this.dataset["id"]}`);
    } catch {
      this.#again(PATIENT_MS);
      return;
    }
    await this.#show(told);
    if (!told.over && this.isConnected) this.#again(OFTEN_MS);
  }

  async #show(told: LongWork): Promise<void> {
    if (told.state !== this.dataset["state"]) await this.#anew(told);
    const said = this.querySelector(".said > span");
    if (!told.over && said) said.textContent = told.said;
    const left = this.querySelector(".said .left");
    if (left) left.textContent = told.clock;
    this.#cells(told);
  }

  /** Written anew by the desk where its state is another one; the focus stays with its buttons. */
  async #anew(told: LongWork): Promise<void> {
    const answer = await fetch(`/work/${told.id}/shown`, { credentials: "same-origin" });
    if (!answer.ok) return;
    const held = this.contains(document.activeElement);
    this.innerHTML = await answer.text();
    this.dataset["state"] = told.state;
    if (held) this.querySelector<HTMLElement>("button")?.focus();
    if (told.over) this.#ended(told);
  }

  #ended(told: LongWork): void {
    this.dispatchEvent(new CustomEvent<LongWork>("ended", { detail: told, bubbles: true }));
    if (this.dataset["then"] === "reload" && told.state === "done") window.location.reload();
  }

  #cells(told: LongWork): void {
    const bar = this.querySelector<SVGElement>(".cells");
    if (!bar) return;
    bar.setAttribute("aria-valuenow", String(told.done));
    bar.setAttribute("aria-label", told.said);
    const there = bar.querySelectorAll(".done");
    for (const cell of [...there].slice(told.done)) cell.remove();
    for (let at = there.length; at < told.done; at += 1) bar.append(cell(at, told.of));
  }

  #pressed(event: Event): void {
    const button = event.target instanceof Element ? event.target.closest<HTMLElement>("[data-path]") : null;
    if (!button) return;
    unsaid(this);
    void saying(this, async () => {
      const told: LongWork = await send("POST", button.dataset["path"]!);
      await this.#show(told);
      if (!told.over) this.#again(OFTEN_MS);
    });
  }
}

/** One full cell, as `told.html` draws it. */
function cell(at: number, of: number): SVGElement {
  const made = document.createElementNS("http://www.w3.org/2000/svg", "rect");
  made.setAttribute("x", `${(0.7 + (at * 98.4) / of).toFixed(2)}%`);
  made.setAttribute("y", "3");
  made.setAttribute("width", `${(98.4 / of - 0.9).toFixed(2)}%`);
  made.setAttribute("height", "12");
  made.setAttribute("class", "in-ink done");
  return made;
}

customElements.define("mw-work", WorkShown);
