/**
 * A form whose answer is a PDF: asked for with the token of the session, then opened by the link in it that was hidden, and
 * under that name saved. A refusal is told in it.
 */

import { NoAnswer, Refused } from "./refused";
import { saying } from "./said";
import { token } from "./send";

export class PdfForm extends HTMLElement {
  private shown = "";

  connectedCallback(): void {
    const form = this.querySelector("form")!;
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      void this.go(form);
    });
  }

  private async go(form: HTMLFormElement): Promise<void> {
    const button = form.querySelector<HTMLButtonElement>('button[type="submit"]')!;
    const link = form.querySelector<HTMLAnchorElement>("a[download]")!;
    link.hidden = true;
    button.disabled = true;
    const told = Object.fromEntries(new FormData(form));
    const pdf = await saying(this, () => asked(this.getAttribute("method")!, this.getAttribute("path")!, told));
    button.disabled = false;
    if (!pdf) return;
    if (this.shown) URL.revokeObjectURL(this.shown);
    this.shown = link.href = URL.createObjectURL(pdf);
    link.hidden = false;
    link.focus();
  }
}

async function asked(method: string, path: string, body: unknown): Promise<Blob> {
  const headers = { "Content-Type": "application/json", "X-Token": token() };
  let answer: Response;
  try {
    answer = await fetch(path, { method, headers, body: JSON.stringify(body), credentials: "same-origin" });
  } catch (error) {
    throw new NoAnswer(`${method} ${path}`, { cause: error });
  }
  if (answer.ok) return answer.blob();
  const told = await answer.json().catch(() => null);
  if (told?.error && told.said) throw new Refused(told.error, told.said, answer.status);
  throw new NoAnswer(`${method} ${path}: ${answer.status}`);
}

customElements.define("mw-pdf", PdfForm);
