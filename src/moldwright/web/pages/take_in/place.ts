/** Where on the page a key of the commission is answered, also one in a row of the tape or of a limb. */

import { filled } from "./answers";

const IN_ROWS = /^original\.(tape|bowls)(?:\.limbs\[(\d+)\])?(?:\.levels\[(\d+)\]|\[(\d+)\])?(?:\.(\w+))?$/;

/** The control, or null where the page that is shown has none. */
export function placeOf(page: HTMLElement, key: string): HTMLElement | null {
  if (!key) return null;
  const plain = [...page.querySelectorAll<HTMLElement>(`[data-key="${CSS.escape(key)}"]`)].find(shown);
  return plain ?? page.querySelector<HTMLElement>(`[data-along="${CSS.escape(key)}"]`) ?? inRows(page, key);
}

/** Open what it is folded in, and put the focus there. */
export function leadTo(page: HTMLElement, key: string): void {
  const place = placeOf(page, key);
  place?.closest("details")?.setAttribute("open", "");
  place?.focus();
}

function inRows(page: HTMLElement, key: string): HTMLElement | null {
  const found = IN_ROWS.exec(key);
  if (!found) return null;
  const [, what, limb, level, bowl, cell] = found;
  const first = "input, select";
  if (what === "bowls") return page.querySelectorAll<HTMLElement>("[data-bowl]")[Number(bowl ?? 0)]?.querySelector(first) ?? null;
  const part = limb === undefined ? page.querySelector("[data-way='tape']") : page.querySelectorAll("[data-limb]")[Number(limb)];
  const own = limb === undefined ? "[data-tape]" : "[data-cell]";
  if (level === undefined)
    return part?.querySelector(own.replace("]", `="${cell ?? ""}"]`)) ?? part?.querySelector<HTMLElement>(first) ?? null;
  const row = filled(part?.querySelector("[data-rows]") ?? null)[Number(level)];
  return row?.querySelector(`[data-cell="${cell ?? "girth"}"]`) ?? null;
}

function shown(one: HTMLElement): boolean {
  return !one.closest("[hidden]");
}
