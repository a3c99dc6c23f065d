/** The mixes' page: its cards are printed by the browser. */

export class PrintPage extends HTMLElement {
  connectedCallback(): void {
    this.querySelector("button")!.addEventListener("click", () => window.print());
  }
}

customElements.define("mw-print", PrintPage);
