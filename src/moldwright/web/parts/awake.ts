/** The screen stays on at the bench, where the browser allows it. */

let lock: WakeLockSentinel | undefined;

async function hold(): Promise<void> {
  if (document.hidden || !("wakeLock" in navigator) || (lock && !lock.released)) return;
  lock = await navigator.wakeLock.request("screen").catch(() => undefined);
}

/** From now on; it is asked for again whenever the page is seen again. */
export function stayAwake(): void {
  void hold();
  document.addEventListener("visibilitychange", () => void hold());
}
