/** Take in: what is typed is kept and checked as one goes; files are sent with their progress; doubts are asked at once. */

import "../../parts/work";

import { saying } from "../../parts/said";
import { send } from "../../parts/send";
import { answers, beside, show } from "./answers";
import { type Checked, showCheck } from "./checked";
import { Drop } from "./drop";
import { leadTo } from "./place";
import { TapeTyped } from "./tape";
import { foldNarrow, tellUsual } from "./usual";

const QUIET_MS = 350;
const STANDS = ["original.height", "original.unit", "original.up", "original.board", "original.bar"];

/** `<mw-take-in data-draft>`: the whole page. */
export class TakeIn extends HTMLElement {
  #timer = 0;
  #asked = 0;
  #begun: Promise<string> | undefined;
  #tape: TapeTyped | undefined;

  connectedCallback(): void {
    this.#tape = new TapeTyped(this);
    foldNarrow(this);
    for (const place of this.querySelectorAll<HTMLElement>("[data-drop]")) new Drop(this, place, () => this.draft());
    this.addEventListener("input", (event) => this.#typed(event));
    this.addEventListener("change", (event) => this.#typed(event));
    this.addEventListener("click", (event) => this.#pressed(event));
    this.addEventListener("ended", () => void this.#looked());
    this.addEventListener("arrived", (event) => void this.#arrived((event as CustomEvent<string>).detail));
    if (this.dataset["draft"]) void this.check();
    this.#tape.follow();
  }

  /** The id of what is being taken in; it is begun with the first thing that is answered. */
  draft(): Promise<string> {
    const there = this.dataset["draft"];
    if (there) return Promise.resolve(there);
    this.#begun ??= this.#begin();
    return this.#begun;
  }

  async #begin(): Promise<string> {
    const made: { id: string } = await send("POST", "/api/take-in", { answers: answers(this), beside: beside(this) });
    this.dataset["draft"] = made.id;
    history.replaceState(null, "", `/take-in/${made.id}`);
    return made.id;
  }

  /** Keep what is answered, and show what is wrong with it. */
  async check(): Promise<Checked | undefined> {
    window.clearTimeout(this.#timer);
    const turn = ++this.#asked;
    const id = await this.draft();
    const sent = { answers: answers(this), beside: beside(this) };
    const told: Checked = await send("POST", `/api/take-in/${id}/check`, sent);
    if (turn === this.#asked) showCheck(this, told);
    return told;
  }

  #typed(event: Event): void {
    const from = event.target as HTMLElement;
    if (from instanceof HTMLInputElement && from.type === "file") return;
    if (from instanceof HTMLInputElement && from.name === "way") show(this, from.value);
    if (from.dataset["key"]) this.#same(from as HTMLInputElement);
    tellUsual(this);
    window.clearTimeout(this.#timer);
    this.#timer = window.setTimeout(() => void this.#kept(from.dataset["key"] ?? ""), QUIET_MS);
  }

  /** One answer may stand in two places. */
  #same(from: HTMLInputElement | HTMLSelectElement): void {
    for (const other of this.querySelectorAll<HTMLInputElement>(`[data-key="${from.dataset["key"]}"]`))
      if (other !== from) other.value = from.value;
  }

  async #kept(key: string): Promise<void> {
    this.#tape?.follow();
    await saying(this.#wrongs(), () => this.check());
    if (STANDS.includes(key)) await this.#fragment();
  }

  async #arrived(what: string): Promise<void> {
    if (what === "scan" || what === "photos") await this.#look();
  }

  async #look(): Promise<void> {
    const id = await this.draft();
    await saying(this.#wrongs(), async () => {
      await this.check();
      await send("POST", `/api/take-in/${id}/look`);
      await this.#fragment();
    });
  }

  async #looked(): Promise<void> {
    await this.#fragment();
    await saying(this.#wrongs(), () => this.check());
  }

  /** What the last look found, written anew by the desk. */
  async #fragment(): Promise<void> {
    const answer = await fetch(`/take-in/${await this.draft()}/looked`, { credentials: "same-origin" });
    if (answer.ok) this.querySelector(".looked")!.innerHTML = await answer.text();
  }

  #pressed(event: Event): void {
    const button = event.target instanceof Element ? event.target.closest<HTMLElement>("button") : null;
    if (!button) return;
    const { act, set, value, noPhoto, lead, along } = button.dataset;
    if (lead) leadTo(this, lead);
    else if (along) void this.#leftOut(along, button);
    else if (set) void this.#set(set, value ?? "");
    else if (noPhoto) void this.#without(noPhoto);
    else if (act === "look") void this.#look();
    else if (act === "take") void this.#take(button);
    else if (act === "drop") void this.#drop();
    else if (act) this.#tape?.act(act, button);
  }

  /** A doubt is settled: its answer goes where it is typed, and the piece is looked at again. */
  async #set(key: string, value: string): Promise<void> {
    for (const field of this.querySelectorAll<HTMLInputElement>(`[data-key="${key}"]`)) field.value = value;
    tellUsual(this);
    if (STANDS.includes(key)) await this.#look();
    else await this.#kept(key);
  }

  /** What has no field here and is not asked for any more. */
  async #leftOut(key: string, button: HTMLElement): Promise<void> {
    await saying(this.#wrongs(), async () => {
      await send("DELETE", `/api/take-in/${await this.draft()}/answers/${encodeURIComponent(key)}`);
      button.closest("li")!.remove();
      await this.check();
    });
  }

  async #without(name: string): Promise<void> {
    const id = await this.draft();
    await saying(this.#wrongs(), async () => {
      const left: { here: string } = await send("DELETE", `/api/take-in/${id}/photos/${encodeURIComponent(name)}`);
      this.querySelector("[data-there='photos']")!.textContent = left.here;
    });
    await this.#look();
  }

  /** Pressed twice it is taken in once. */
  async #take(button: HTMLElement): Promise<void> {
    if (button.getAttribute("aria-disabled")) return;
    button.setAttribute("aria-disabled", "true");
    await saying(this.#wrongs(), async () => {
      const told = await this.check();
      if (!told?.ready) {
        this.#wrongs().classList.remove("not-yet");
        this.querySelector<HTMLElement>(".field.wrong input, .field.wrong select, [data-cell][aria-invalid], .wrongs .error")?.focus();
        return;
      }
      const made: { path: string } = await send("POST", `/api/take-in/${await this.draft()}/piece`);
      window.location.assign(made.path);
    });
    button.removeAttribute("aria-disabled");
  }

  async #drop(): Promise<void> {
    await saying(this.#wrongs(), async () => {
      await send("DELETE", `/api/take-in/${await this.draft()}`);
      window.location.assign("/take-in");
    });
  }

  #wrongs(): Element {
    return this.querySelector(".wrongs")!;
  }
}

customElements.define("mw-take-in", TakeIn);
