/** A list that is looked through: the server searches while one types, and the address tells what is shown. */

import { freshen } from "./fresh";

const WAIT_MS = 180;

class LookUp extends HTMLElement {
  private waiting = 0;
  private asked = 0;

  connectedCallback(): void {
    this.addEventListener("input", () => {
      clearTimeout(this.waiting);
      this.waiting = window.setTimeout(() => void this.show(), WAIT_MS);
    });
    this.addEventListener("submit", (event) => {
      event.preventDefault();
      void this.show();
    });
    this.classList.add("live");
  }

  private async show(): Promise<void> {
    clearTimeout(this.waiting);
    const fields = new FormData(this.querySelector("form")!);
    const typed = [...fields].filter(([, value]) => value !== "") as [string, string][];
    const address = `${location.pathname}?${new URLSearchParams(typed)}`;
    const turn = ++this.asked;
    await freshen(address, () => turn === this.asked);
    if (turn === this.asked) history.replaceState(null, "", address);
  }
}

if (!customElements.get("mw-look-up")) customElements.define("mw-look-up", LookUp);
