/** The server's time on this device, whatever the device's own clock says.
 *
 * Several calls are timed; the one with the shortest way tells best. Between them time goes on by the browser's steady
 * clock. That one may stand still while the device sleeps, and not every browser hides a page before: what the wall
 * clock gains counts as sleep, and is in doubt until the server has told; what it is set back before somebody's eyes
 * counts nothing. So a clock shows too little for a while at the worst, never too much. What was found is kept for a
 * reload without a server.
 */

const KEPT = "moldwright-time-offset";
const CALLS = 5;
/** Differences between the two clocks that are told apart from drift. */
const JUMP_MS = 400;
const AGAIN_MS = 5 * 60_000;
/** While the time is in doubt. */
const SOON_MS = 3000;

interface Anchor {
  readonly server_ms: number;
  readonly steady_ms: number;
  readonly wall_ms: number;
}

export interface TimeAnswer {
  readonly now_ms: number;
}

export class ServerTime extends EventTarget {
  private anchor: Anchor;
  private hidden = false;
  private doubted = false;
  private measuring: Promise<boolean> | undefined;

  /** `ask` calls the server for its time. */
  constructor(private readonly ask: () => Promise<TimeAnswer>) {
    super();
    const offset = Number(localStorage.getItem(KEPT) ?? 0);
    this.anchor = { server_ms: Date.now() + offset, steady_ms: performance.now(), wall_ms: Date.now() };
  }

  /** Measure now, and from now on whenever it may have become wrong. */
  start(): void {
    void this.measure();
    setInterval(() => void this.measure(), AGAIN_MS);
    addEventListener("online", () => void this.measure());
    addEventListener("pageshow", () => void this.measure());
    document.addEventListener("visibilitychange", () => {
      if (document.hidden) this.hidden = true;
      else this.woken();
    });
  }

  /** What the server's clock shows now [ms]. */
  now(): number {
    const steady = performance.now() - this.anchor.steady_ms;
    const wall = Date.now() - this.anchor.wall_ms;
    if (!this.hidden && Math.abs(wall - steady) > JUMP_MS) this.jumped(steady, wall);
    return Math.round(this.anchor.server_ms + (this.hidden ? Math.max(steady, wall) : steady));
  }

  /** The device slept, or its clock was set, and the server was not asked since. */
  get inDoubt(): boolean {
    return this.doubted;
  }

  /** What is gained may be sleep and counts; set back, time goes on as before. It is measured anew. */
  private jumped(steady: number, wall: number): void {
    this.doubted = this.doubted || wall > steady;
    this.take(this.anchor.server_ms + Math.max(steady, wall));
    void this.measure();
  }

  /** The page is seen again: it may have slept. */
  private woken(): void {
    const now = this.now();
    this.doubted = this.doubted || now - this.anchor.server_ms - (performance.now() - this.anchor.steady_ms) > JUMP_MS;
    this.hidden = false;
    this.take(now);
    void this.measure();
  }

  /** Whether the server answered. */
  measure(): Promise<boolean> {
    this.measuring ??= this.several().finally(() => {
      this.measuring = undefined;
      if (this.doubted) setTimeout(() => void this.measure(), SOON_MS);
    });
    return this.measuring;
  }

  private async several(): Promise<boolean> {
    let best: { way_ms: number; server_ms: number; back_ms: number } | undefined;
    try {
      for (let call = 0; call < CALLS; call += 1) {
        const out_ms = performance.now();
        const { now_ms } = await this.ask();
        const back_ms = performance.now();
        const way_ms = back_ms - out_ms;
        if (!best || way_ms < best.way_ms) best = { way_ms, server_ms: now_ms + way_ms / 2, back_ms };
      }
    } catch {
      if (!best) return false;
    }
    this.doubted = false;
    if (best) this.take(best.server_ms + performance.now() - best.back_ms);
    document.documentElement.dataset["time"] = "measured";
    return true;
  }

  private take(server_ms: number): void {
    this.anchor = { server_ms, steady_ms: performance.now(), wall_ms: Date.now() };
    localStorage.setItem(KEPT, String(Math.round(server_ms - this.anchor.wall_ms)));
    this.dispatchEvent(new Event("set"));
  }
}
