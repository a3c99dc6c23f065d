/** A pedal that types Space presses the act with the cut corners, one that types Backspace strikes out; Escape closes what
 * lies over the work. */

const WRITES = "input, textarea, select, [contenteditable]";

/** What keys do. The digits of the pad go first. */
export interface Keys {
  digit(key: string): boolean;
  main(): void;
  strike(): void;
  close(): void;
}

/** Who walks from button to button by Tab presses the one that is reached; a finger's last button is none. */
let walks = false;

export function watchKeys(root: Document, keys: Keys): void {
  root.addEventListener("pointerdown", () => (walks = false), { capture: true });
  root.addEventListener("keydown", (event) => {
    if (event.key === "Tab") walks = true;
    if (event.key === "Escape") return keys.close();
    if (event.ctrlKey || event.metaKey || event.altKey || within(event, WRITES)) return;
    if (keys.digit(event.key)) event.preventDefault();
    else if (event.key === " " && !reached(event)) once(event, () => keys.main());
    else if (event.key === "Backspace") once(event, () => keys.strike());
  });
  root.addEventListener("keyup", (event) => {
    if (event.key === " " && within(event, "button, a") && !reached(event)) event.preventDefault();
  });
}

function reached(event: Event): boolean {
  return walks && within(event, "button, a, summary");
}

function within(event: Event, selector: string): boolean {
  return event.target instanceof Element && event.target.closest(selector) !== null;
}

/** A pedal that is held down writes once. */
function once(event: KeyboardEvent, act: () => void): void {
  event.preventDefault();
  if (!event.repeat) act();
}
