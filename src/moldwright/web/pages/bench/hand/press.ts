/** What counts as a press at the bench: one finger, let go where it came down, at least 60 ms later. A drop of water or
 * rubber touches for less; a palm comes with more than one point. A mouse, a key and a reader's own act always count. */

const SHORTEST_MS = 60;

const down = new Map<number, { target: EventTarget | null; at_ms: number; alone: boolean }>();
let allowed: Element | undefined;
let touched_ms = -Infinity;
/** Browsers make a click of a touch within so much; one that comes later has another cause. */
const CLICK_WITHIN_MS = 800;

/** What lies there for longer presses nothing: a sleeve or a palm. */
const HELD_MS = 1000;
let lowered_ms = -Infinity;

/** Whether somebody is pressing: a screen drawn anew now would take the button from under the finger. */
export function pressing(): boolean {
  return performance.now() - lowered_ms < HELD_MS;
}

/** Watch the touches of a page; once. */
export function watchTouches(root: Document): void {
  root.addEventListener("pointerdown", begins, { capture: true });
  root.addEventListener("pointerup", ends, { capture: true });
  root.addEventListener("pointercancel", (event) => raised(event), { capture: true });
  root.addEventListener("click", letThrough, { capture: true });
  root.addEventListener("contextmenu", (event) => event.preventDefault());
}

function raised(event: PointerEvent): void {
  lowered_ms = -Infinity;
  down.delete(event.pointerId);
}

function begins(event: PointerEvent): void {
  lowered_ms = event.timeStamp;
  if (event.pointerType === "mouse") return;
  for (const other of down.values()) other.alone = false;
  down.set(event.pointerId, { target: event.target, at_ms: event.timeStamp, alone: down.size === 0 });
}

function ends(event: PointerEvent): void {
  const began = down.get(event.pointerId);
  raised(event);
  if (event.pointerType === "mouse" || !began) return;
  touched_ms = event.timeStamp;
  const there = button(event.target);
  const counts = began.alone && there !== undefined && there === button(began.target) && event.timeStamp - began.at_ms >= SHORTEST_MS;
  allowed = counts ? there : undefined;
}

function button(target: EventTarget | null): Element | undefined {
  return (target instanceof Element ? target.closest("button, a, label, input, textarea") : null) ?? undefined;
}

function letThrough(event: MouseEvent): void {
  const ofTouch = event.timeStamp - touched_ms < CLICK_WITHIN_MS && event.detail > 0;
  if (!ofTouch || button(event.target) === allowed) {
    allowed = undefined;
    return;
  }
  event.preventDefault();
  event.stopImmediatePropagation();
}
