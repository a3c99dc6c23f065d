/** Digits as big as knuckles: a reading is typed here, without the device's own keyboard. */

import { make } from "../../../parts/make";
import { say } from "../../../parts/words";

const KEYS = ["7", "8", "9", "4", "5", "6", "1", "2", "3", "0", "."] as const;
const LONGEST = 8;

/** What stands on the pad, as it was typed; one number, or several with a space between. */
export class Pad {
  typed = "";
  readonly element: HTMLElement;

  /** `changed` hears of every key. */
  constructor(
    private readonly point: string,
    private readonly changed: () => void,
  ) {
    this.element = make("div.pad", { role: "group", "aria-label": say("digits") }, this.keys());
  }

  private keys(): HTMLElement[] {
    const digits = KEYS.map((key) => this.button(key === "." ? this.point : key, `digit-${key}`, () => this.add(key)));
    return [...digits, this.button(say("back"), "digit-back", () => this.back())];
  }

  private button(words: string, name: string, act: () => void): HTMLElement {
    const made = make("button.digit", { type: "button", "data-key": name }, words);
    made.addEventListener("click", act);
    return made;
  }

  /** A key of a real keyboard; whether it was one of the pad's. */
  key(key: string): boolean {
    if (/^\d$/.test(key)) this.add(key);
    else if (key === "." || key === ",") this.add(".");
    else if (key === "Backspace") this.back();
    else return false;
    return true;
  }

  private add(key: string): void {
    if (this.typed.length >= LONGEST || (key === "." && this.typed.includes("."))) return;
    this.typed = key === "." && !this.typed ? "0." : this.typed === "0" && key !== "." ? key : this.typed + key;
    this.changed();
  }

  private back(): void {
    this.typed = this.typed.slice(0, -1);
    this.changed();
  }

  clear(): void {
    this.typed = "";
    this.changed();
  }

  /** The number, null for none yet. */
  get value(): number | null {
    return /\d/.test(this.typed) ? Number(this.typed) : null;
  }

  /** As it is read on a scale here. */
  get shown(): string {
    return this.typed.replace(".", this.point);
  }
}
