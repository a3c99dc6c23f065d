/**
 * A form whose act goes to the desk as JSON, by keyboard as by hand. Attributes: `method`, `path`; `then`: "reload" or where to
 * go when it is done; `at-once`: it is sent as soon as something is chosen. A refusal is shown in it. An `output` in it that is
 * hidden appears when it is done. Whoever wants the answer listens for "answered", whose detail it is.
 */

import { saying } from "./said";
import { send } from "./send";

export class SendingForm extends HTMLElement {
  connectedCallback(): void {
    const form = this.querySelector("form")!;
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      void this.go(form);
    });
    if (this.hasAttribute("at-once")) form.addEventListener("change", () => form.requestSubmit());
  }

  private async go(form: HTMLFormElement): Promise<void> {
    const [done, busy] = [form.querySelector("output"), form.querySelectorAll("button")];
    if (done) done.hidden = true;
    busy.forEach((button) => (button.disabled = true));
    const told = Object.fromEntries(new FormData(form));
    const body = Object.keys(told).length ? told : undefined;
    const answer = await saying(this, () => send(this.getAttribute("method")!, this.getAttribute("path")!, body));
    busy.forEach((button) => (button.disabled = false));
    if (answer === undefined) return;
    if (done) done.hidden = false;
    this.dispatchEvent(new CustomEvent("answered", { detail: answer, bubbles: true }));
    const then = this.getAttribute("then");
    if (then === "reload") location.reload();
    else if (then) location.assign(then);
  }
}

customElements.define("mw-form", SendingForm);
