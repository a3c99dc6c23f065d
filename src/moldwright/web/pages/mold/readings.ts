/** What is read at a place that was pressed, and between two. The numbers come from the server, rounded there. */

import { made } from "./made";
import type { Picked } from "./pick";
import { asked, type Rows, type Told, type Words } from "./told";

export class Readings {
  readonly box = made("section", "readings");
  measuring = false;
  places: Picked[] = [];

  constructor(
    private readonly told: Told,
    private readonly words: Words,
  ) {
    this.box.setAttribute("aria-live", "polite");
    this.clear();
  }

  clear(): void {
    this.places = [];
    this.box.replaceChildren(made("p", "small", this.words[this.measuring ? "measure_told" : "press"] ?? ""));
  }

  async press(place: Picked | null): Promise<void> {
    if (!place) return this.clear();
    this.places = this.measuring && this.places.length === 1 ? [...this.places, place] : [place];
    const [one, other] = this.places;
    try {
      if (one && other) this.say("between", await asked(`${this.told.between}?${at(one)}&${at(other, "other_")}`));
      else if (one) this.say("place", await asked(`${this.told.place}?${at(one)}`));
    } catch (error) {
      this.box.replaceChildren(made("p", "", error instanceof Error ? error.message : String(error)));
    }
  }

  private say(title: string, answer: { rows: Rows }): void {
    const list = made("dl", "figures");
    for (const [name, value] of answer.rows) list.append(made("dt", "", name), made("dd", "number", value));
    this.box.replaceChildren(made("h3", "", this.words[title]), list);
    if (this.measuring && this.places.length === 1) this.box.append(made("p", "small", this.words["measure_told"]));
  }
}

function at(place: Picked, before = ""): string {
  return `${before}part=${encodeURIComponent(place.body.solid.id)}&${before}corner=${place.corner}`;
}
