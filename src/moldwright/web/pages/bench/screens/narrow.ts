/** On a phone what stands at the right on a wider screen comes first: the Tab key goes as the eye does. */

const PHONE = matchMedia("(max-width: 51.25em)");

/** The parts of a row from left to right; on a phone the last one stands above the others. */
export function inOrder(...parts: HTMLElement[]): HTMLElement[] {
  return PHONE.matches ? [...parts.slice(-1), ...parts.slice(0, -1)] : parts;
}

/** The screen was turned, or its letters were made larger: it is drawn anew. */
export function whenTurned(again: () => void): void {
  PHONE.addEventListener("change", again);
}
