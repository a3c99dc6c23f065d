/** `<mw-clocks data-runs>`: what runs, counted by the server's clock. It tells "turn" when the server may know of more to do. */

import { make } from "../make";
import { send } from "../send";
import { ServerTime } from "../time/servertime";
import { DrawnClocks } from "./drawn";
import { items, turns } from "./items";
import type { Runs } from "./moments";

const TICK_MS = 250;

let time: ServerTime | undefined;

/** The server's time, measured once for all clocks of a page. */
export function serverTime(): ServerTime {
  if (!time) {
    time = new ServerTime(() => send("GET", "/api/time"));
    time.start();
  }
  return time;
}

export class Clocks extends HTMLElement {
  private timer = 0;
  private before_ms = 0;

  connectedCallback(): void {
    const runs = JSON.parse(this.dataset["runs"]!) as Runs;
    const place = make("div.clocks");
    const drawn = new DrawnClocks(place, () => make("div.clock"));
    this.replaceChildren(place);
    this.before_ms = serverTime().now();
    const tick = (): void => this.tick(runs, drawn);
    this.timer = window.setInterval(tick, TICK_MS);
    tick();
  }

  disconnectedCallback(): void {
    window.clearInterval(this.timer);
  }

  private tick(runs: Runs, drawn: DrawnClocks): void {
    const now_ms = serverTime().now();
    drawn.show(items(runs, [], now_ms));
    const turned = turns(runs, [], this.before_ms).some((ms) => ms <= now_ms);
    this.before_ms = now_ms;
    if (turned) this.dispatchEvent(new CustomEvent("turn", { bubbles: true }));
  }
}

if (!customElements.get("mw-clocks")) customElements.define("mw-clocks", Clocks);
