/** The look that the user chose: kept for a year in a cookie, which the server reads before it writes a page. */

const LOOKS = ["light", "dark", "contrast"] as const;
type Look = (typeof LOOKS)[number];

const YEAR_S = 365 * 24 * 3600;

/** A group of radio buttons named `look`; the one without a value leaves it to the system. */
export class LookChoice extends HTMLElement {
  connectedCallback(): void {
    this.addEventListener("change", (event) => {
      if (event.target instanceof HTMLInputElement) take(event.target.value);
    });
  }
}

/** What was chosen, shown at once and kept. */
export function take(value: string): void {
  const look = LOOKS.find((one): one is Look => one === value);
  if (look) document.documentElement.dataset["look"] = look;
  else delete document.documentElement.dataset["look"];
  document.cookie = `look=${look ?? ""}; path=/; SameSite=Lax; max-age=${look ? YEAR_S : 0}`;
}

customElements.define("mw-look", LookChoice);
