/** An edition's page: its places are one stop for the keyboard, arrows lead from one to the next; PDFs open when made. */

import "../../parts/act";
import "../../parts/pdf";
import "../../parts/photo";

/** Places in a row that wraps: arrows, Home and End go through them; Tab goes past. */
export class NumberPlaces extends HTMLElement {
  connectedCallback(): void {
    const links = [...this.querySelectorAll<HTMLAnchorElement>("a.place")];
    const chosen = links.find((link) => link.hasAttribute("aria-current")) ?? links[0];
    for (const link of links) link.tabIndex = link === chosen ? 0 : -1;
    this.addEventListener("keydown", (event) => {
      const at = links.indexOf(event.target as HTMLAnchorElement);
      const to = at < 0 ? -1 : next(links, at, event.key);
      const found = links[to];
      if (!found) return;
      event.preventDefault();
      links[at]!.tabIndex = -1;
      found.tabIndex = 0;
      found.focus();
    });
  }
}

function next(links: HTMLAnchorElement[], at: number, key: string): number {
  if (key === "ArrowRight") return at + 1;
  if (key === "ArrowLeft") return at - 1;
  if (key === "Home") return 0;
  if (key === "End") return links.length - 1;
  if (key === "ArrowDown") return at + across(links);
  if (key === "ArrowUp") return at - across(links);
  return -1;
}

/** So many stand beside one another. */
function across(links: HTMLAnchorElement[]): number {
  const first = links[0]?.getBoundingClientRect().top;
  const second = links.findIndex((link) => link.getBoundingClientRect().top !== first);
  return second < 0 ? links.length : second;
}

customElements.define("mw-places", NumberPlaces);
