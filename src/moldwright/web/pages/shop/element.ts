/** An invitation, drawn as the desk gave it: the square to scan, the address, the code. */

interface Invited {
  code: string;
  address: string;
  across: number;
  qr: string;
}

const QUIET = 4;
/** Light squares all round, which a camera needs. */

export class Invite extends HTMLElement {
  connectedCallback(): void {
    this.addEventListener("answered", (event) => this.show((event as CustomEvent<Invited>).detail));
  }

  private show(told: Invited): void {
    const place = this.querySelector<HTMLElement>(".invited")!;
    const side = told.across + 2 * QUIET;
    const [svg, light] = [place.querySelector("svg")!, place.querySelector("rect")!];
    svg.setAttribute("viewBox", `${-QUIET} ${-QUIET} ${side} ${side}`);
    for (const name of ["x", "y"]) light.setAttribute(name, String(-QUIET));
    for (const name of ["width", "height"]) light.setAttribute(name, String(side));
    place.querySelector("path")!.setAttribute("d", told.qr);
    place.querySelector(".address")!.textContent = told.address;
    place.querySelector(".typed")!.textContent = told.code;
    place.hidden = false;
    place.scrollIntoView({ block: "nearest" });
  }
}

/** The names that were kept, in the list of devices too. */
function renamed(names: Element): void {
  const [device, by] = [...names.querySelectorAll("input")].map((input) => input.value.trim());
  const own = document.querySelector(".devices .own");
  if (!own || !device) return;
  own.querySelector("strong")!.textContent = device;
  own.querySelector(".by")!.textContent = by ? `, ${by}` : "";
}

const names = document.querySelector("#names");
names?.addEventListener("answered", () => renamed(names));

customElements.define("mw-invite", Invite);
