/** The tape's table: rows and limbs are added, and what was understood of it is drawn as one types. */

import { send } from "../../parts/send";
import { answers, way } from "./answers";
import { draw, type Told } from "./drawing";

const QUIET_MS = 250;

/** The part of the page in which a tape is typed. */
export class TapeTyped {
  #timer = 0;
  #turn = 0;

  constructor(private readonly page: HTMLElement) {
    page.addEventListener("focusin", (event) => this.#marked(event.target as HTMLElement));
  }

  /** Draw what stands there now, once one pauses. */
  follow(): void {
    const drawn = this.page.querySelector<HTMLElement>(".tape-drawn")!;
    drawn.hidden = way(this.page) !== "tape";
    if (drawn.hidden) return;
    window.clearTimeout(this.#timer);
    this.#timer = window.setTimeout(() => void this.#drawn(drawn), QUIET_MS);
  }

  async #drawn(place: HTMLElement): Promise<void> {
    const turn = ++this.#turn;
    let told: Told;
    try {
      told = await send("POST", "/api/take-in/tape", { answers: answers(this.page) });
    } catch {
      return;
    }
    if (turn === this.#turn) draw(place, told);
  }

  /** What a button of the table does. */
  act(act: string, button: HTMLElement): void {
    const part = button.closest<HTMLElement>(".way") ?? this.page;
    if (act === "level") this.#added(part.querySelector("[data-rows='levels']")!, "level");
    else if (act === "limb-row") this.#added(button.closest("[data-limb]")!.querySelector("[data-rows]")!, "level");
    else if (act === "limb") this.#added(part.querySelector(".limbs")!, "limb");
    else if (act === "no-limb") this.#removed(button.closest("[data-limb]")!);
  }

  #added(place: Element, which: string): void {
    const template = this.page.querySelector<HTMLTemplateElement>(`template[data-new="${which}"]`)!;
    const made = template.content.cloneNode(true) as DocumentFragment;
    const first = made.querySelector<HTMLElement>("input");
    place.append(made);
    first?.focus();
  }

  #removed(limb: Element): void {
    const next = limb.parentElement!.parentElement!.querySelector<HTMLElement>("[data-act='limb']");
    limb.remove();
    next?.focus();
    this.page.dispatchEvent(new Event("input"));
  }

  /** The row in hand is marked. */
  #marked(at: HTMLElement): void {
    for (const row of this.page.querySelectorAll("tr.in-hand")) row.classList.remove("in-hand");
    at.closest("[data-rows] tr")?.classList.add("in-hand");
  }
}
