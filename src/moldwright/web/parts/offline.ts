/** The service worker is asked for where the browser allows one: on this machine itself, or by HTTPS. */

export function register(): void {
  if (!isSecureContext || !("serviceWorker" in navigator)) return;
  void navigator.serviceWorker.register("/worker.js", { scope: "/", updateViaCache: "none" }).catch(() => undefined);
}
