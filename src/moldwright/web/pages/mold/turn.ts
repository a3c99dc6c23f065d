/** From where one looks: turned by a finger, a mouse or arrows; nearer by two fingers, a wheel, plus and minus. */

const FULL = 2 * Math.PI;
const STEP = Math.PI / 24;
const NEARER = 1.15;
const LIMIT = Math.PI / 2 - 0.01;
const TAP_PX = 6;
const SHIFT_PX = 12;
const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

export interface Gaze {
  /** From the front, counterclockwise seen from above. */
  azimuth: number;
  height: number;
  zoom: number;
  /** Where the middle lies, right and up, in shares of what is seen. */
  right: number;
  up: number;
}

/** Never from straight above or below: what is up would not be known. */
function within(height: number): number {
  return Math.max(-LIMIT, Math.min(LIMIT, height));
}

/** Turns a gaze by what is done over an element, and tells a tap from a turn. */
export class Turning {
  readonly gaze: Gaze = { azimuth: 0.5, height: 0.35, zoom: 1, right: 0, up: 0 };
  private readonly held = new Map<number, { x: number; y: number }>();
  private moved = 0;

  constructor(
    private readonly over: HTMLElement,
    private readonly changed: () => void,
    private readonly pressed: (x: number, y: number) => void,
  ) {
    over.addEventListener("pointerdown", (event) => this.down(event));
    over.addEventListener("pointermove", (event) => this.move(event));
    over.addEventListener("pointerup", (event) => this.lift(event, true));
    over.addEventListener("pointercancel", (event) => this.lift(event, false));
    over.addEventListener("wheel", (event) => this.wheel(event), { passive: false });
    over.addEventListener("keydown", (event) => this.key(event));
  }

  look(azimuth: number, height: number): void {
    Object.assign(this.gaze, { azimuth, height: within(height), zoom: 1, right: 0, up: 0 });
    this.changed();
  }

  private down(event: PointerEvent): void {
    this.over.setPointerCapture(event.pointerId);
    if (this.held.size === 0) this.moved = 0;
    this.held.set(event.pointerId, { x: event.clientX, y: event.clientY });
  }

  private move(event: PointerEvent): void {
    const last = this.held.get(event.pointerId);
    if (!last) return;
    const [dx, dy] = [event.clientX - last.x, event.clientY - last.y];
    this.moved += Math.abs(dx) + Math.abs(dy);
    const before = this.apart();
    this.held.set(event.pointerId, { x: event.clientX, y: event.clientY });
    if (this.held.size > 1) {
      if (before > 0) this.zoom(this.apart() / before);
      this.shift(dx / 2, dy / 2);
    } else if (event.buttons & 2 || event.shiftKey) this.shift(dx, dy);
    else this.turn((-dx / this.over.clientWidth) * FULL, (dy / this.over.clientHeight) * Math.PI);
    this.changed();
  }

  private lift(event: PointerEvent, meant: boolean): void {
    if (!this.held.delete(event.pointerId)) return;
    if (meant && this.held.size === 0 && this.moved < TAP_PX) this.pressed(event.clientX, event.clientY);
  }

  private wheel(event: WheelEvent): void {
    if (!(event.ctrlKey || this.over.contains(document.activeElement))) return;
    event.preventDefault();
    this.zoom(event.deltaY < 0 ? NEARER : 1 / NEARER);
    this.changed();
  }

  private key(event: KeyboardEvent): void {
    const side = ARROWS[event.key];
    const acts: Record<string, () => void> = {
      [side ? event.key : ""]: () => this.arrow(side ?? [0, 0], event.shiftKey),
      "+": () => this.zoom(NEARER),
      "=": () => this.zoom(NEARER),
      "-": () => this.zoom(1 / NEARER),
      Enter: () => this.middle(),
    };
    const act = acts[event.key];
    if (!act || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    act();
    this.changed();
  }

  /** Turned, or moved with Shift. */
  private arrow([right, up]: readonly [number, number], moved: boolean): void {
    if (moved) this.shift(right * SHIFT_PX, -up * SHIFT_PX);
    else this.turn(right * STEP, up * STEP);
  }

  private middle(): void {
    const box = this.over.getBoundingClientRect();
    this.pressed(box.left + box.width / 2, box.top + box.height / 2);
  }

  private turn(azimuth: number, height: number): void {
    this.gaze.azimuth = (this.gaze.azimuth + azimuth) % FULL;
    this.gaze.height = within(this.gaze.height + height);
  }

  private zoom(by: number): void {
    this.gaze.zoom = Math.max(0.4, Math.min(20, this.gaze.zoom * by));
  }

  private shift(dx: number, dy: number): void {
    this.gaze.right -= dx / this.over.clientWidth / this.gaze.zoom;
    this.gaze.up += dy / this.over.clientHeight / this.gaze.zoom;
  }

  private apart(): number {
    const [one, other] = [...this.held.values()];
    return one && other ? Math.hypot(one.x - other.x, one.y - other.y) : 0;
  }
}
