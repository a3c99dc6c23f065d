/** The door: a code, or the passphrase. An invitation's address brings its code along, behind the #, which no log keeps. */

import { saying } from "../../parts/said";
import { send } from "../../parts/send";

export class Door extends HTMLElement {
  connectedCallback(): void {
    for (const form of this.querySelectorAll("form")) {
      form.addEventListener("submit", (event) => {
        event.preventDefault();
        void this.comeIn(form.dataset["path"]!, Object.fromEntries(new FormData(form)), form);
      });
    }
    window.addEventListener("hashchange", () => this.invited());
    this.invited();
  }

  /** By the address's code: of the page, or of a scan that opens where the door stands open already. */
  private invited(): void {
    const code = location.hash.slice(1);
    history.replaceState(null, "", location.pathname);
    if (code) void this.join(code);
  }

  private async join(code: string): Promise<void> {
    const [waiting, ways] = [this.querySelector<HTMLElement>(".joining")!, this.querySelector<HTMLElement>(".ways")!];
    [waiting.hidden, ways.hidden] = [false, true];
    await this.comeIn("/api/door/join", { code }, this);
    [waiting.hidden, ways.hidden] = [true, false];
  }

  private async comeIn(path: string, told: object, place: Element): Promise<void> {
    const answer = await saying(place, () => send("POST", path, told));
    if (answer === null) location.replace("/");
  }
}

customElements.define("mw-door", Door);
