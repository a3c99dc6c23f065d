/** A mold's page: casting from it leads to the bench; a photo is kept as soon as it is taken. */

import "../../parts/act";
import "../../parts/photo";

/** Around a form that starts a run: goes where its answer leads. */
export class CastFrom extends HTMLElement {
  connectedCallback(): void {
    this.addEventListener("answered", (event) => location.assign((event as CustomEvent<{ path: string }>).detail.path));
  }
}

customElements.define("mw-cast", CastFrom);
