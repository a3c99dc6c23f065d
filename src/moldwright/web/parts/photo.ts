/**
 * A photo that goes along with a form: kept as soon as it is taken, its hash in the hidden field `file`. While it is on its way
 * the form cannot be sent; a refusal is told beside it.
 */

import { saying } from "./said";
import { send } from "./send";

export class KeptPhoto extends HTMLElement {
  connectedCallback(): void {
    const picked = this.querySelector<HTMLInputElement>('input[type="file"]')!;
    picked.addEventListener("change", () => void this.keep(picked));
  }

  private async keep(picked: HTMLInputElement): Promise<void> {
    const [photo] = picked.files ?? [];
    const [field, kept] = [this.querySelector<HTMLInputElement>('input[name="file"]')!, this.querySelector<HTMLElement>(".kept")];
    field.value = "";
    if (kept) kept.hidden = true;
    if (!photo) return;
    const busy = this.closest("form")?.querySelectorAll("button") ?? [];
    busy.forEach((button) => (button.disabled = true));
    const path = `/api/files?name=${encodeURIComponent(photo.name.slice(0, 200))}`;
    const answer = await saying(this, () => send("PUT", path, photo));
    busy.forEach((button) => (button.disabled = false));
    if (answer === undefined) {
      picked.value = "";
      return;
    }
    field.value = answer.file;
    if (kept) kept.hidden = false;
  }
}

customElements.define("mw-photo", KeptPhoto);
