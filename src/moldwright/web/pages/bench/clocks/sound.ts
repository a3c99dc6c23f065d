/** Knocks, made and not played from a file: two low ones where a clock's last fifth begins, three where it ends. */

const SILENT = "moldwright-silent";
const LOW_HZ = 140;
const END_HZ = 210;
const APART_S = 0.22;
const LASTS_S = 0.16;

let context: AudioContext | undefined;

/** Browsers let a page sound only after a press. */
export function wakeSound(): void {
  context ??= new AudioContext();
  if (context.state === "suspended") void context.resume();
}

export function silent(): boolean {
  return localStorage.getItem(SILENT) === "1";
}

export function keepSilent(yes: boolean): void {
  localStorage.setItem(SILENT, yes ? "1" : "0");
}

/** It is told to the page too: whoever has no ears for it, a lamp or a test, listens there. */
export function knock(kind: "last fifth" | "end"): void {
  document.dispatchEvent(new CustomEvent("knock", { detail: kind }));
  const count = kind === "end" ? 3 : 2;
  if (navigator.userActivation?.hasBeenActive && "vibrate" in navigator) navigator.vibrate(kind === "end" ? [300, 120, 300, 120, 300] : [200, 120, 200]);
  if (silent() || !context || context.state !== "running") return;
  for (let n = 0; n < count; n += 1) one(context, context.currentTime + n * APART_S, kind === "end" ? END_HZ : LOW_HZ);
}

/** A tone that falls and dies away like a knuckle on a board. */
function one(on: AudioContext, at_s: number, hz: number): void {
  const tone = on.createOscillator();
  const loud = on.createGain();
  tone.frequency.setValueAtTime(hz, at_s);
  tone.frequency.exponentialRampToValueAtTime(hz / 2, at_s + LASTS_S);
  loud.gain.setValueAtTime(0.9, at_s);
  loud.gain.exponentialRampToValueAtTime(0.001, at_s + LASTS_S);
  tone.connect(loud).connect(on.destination);
  tone.start(at_s);
  tone.stop(at_s + LASTS_S);
}
