/** The service worker: lets a tablet reload the bench while the Wi-Fi is gone.
 *
 * It keeps scripts, styles and fonts of this version, and the bench's pages that were opened. Nothing under `/api/` is
 * ever kept or answered here. Whoever is signed out leaves nothing to look at. The server writes `MADE_FROM`, what the
 * scripts were made from, before the first line: another version is another worker, which takes over at once.
 */

declare const self: ServiceWorkerGlobalScope & { readonly MADE_FROM?: string };

const SHELL = `shell ${self.MADE_FROM ?? ""}`;
const PAGES = "bench pages";
const PATIENCE_MS = 4000;
const DOOR = "/door";

interface Manifest {
  readonly scripts: Readonly<Record<string, string>>;
  readonly styles: Readonly<Record<string, string>>;
  readonly at_once: Readonly<Record<string, readonly string[]>>;
  readonly fonts?: readonly string[];
}

self.addEventListener("install", (event) => event.waitUntil(keepShell().then(() => self.skipWaiting())));
self.addEventListener("activate", (event) => event.waitUntil(takeOver().then(() => self.clients.claim())));
self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== self.location.origin) return;
  if (url.pathname.startsWith("/built/")) event.respondWith(keptFirst(event.request));
  else if (event.request.mode === "navigate") {
    if (ofBench(url)) event.respondWith(askedFirst(event.request));
    else if (url.pathname === DOOR) event.waitUntil(forget());
  }
});

function ofBench(url: URL): boolean {
  return url.pathname === "/bench" || url.pathname.startsWith("/bench/");
}

async function keepShell(): Promise<void> {
  const told = (await (await fetch("/built/manifest.json", { cache: "no-cache" })).json()) as Manifest;
  const names = ["base", "bench"].flatMap((page) => [told.scripts[page], told.styles[page], ...(told.at_once[page] ?? [])]);
  const files = new Set([...names, ...(told.fonts ?? [])].filter((name) => name !== undefined));
  await (await caches.open(SHELL)).addAll([...files].map((name) => `/built/${name}`));
}

/** Pages that are kept name the scripts of the version before: those are dropped once every page has come anew. */
async function takeOver(): Promise<void> {
  const pages = await caches.open(PAGES);
  const came = await Promise.all((await pages.keys()).map((page) => renewed(pages, page)));
  if (came.every((each) => each)) await dropOthers();
}

/** Whether there is nothing old left of it: it came, or is none of this device any more. */
async function renewed(pages: Cache, page: Request): Promise<boolean> {
  const asked = fetch(page.url, { cache: "no-store", headers: { Accept: "text/html" }, signal: AbortSignal.timeout(PATIENCE_MS) });
  const answer = await asked.catch(() => undefined);
  if (!answer || answer.status >= 500) return false;
  if (answer.ok && !answer.redirected) await pages.put(page, answer);
  else await pages.delete(page);
  return true;
}

async function dropOthers(): Promise<void> {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name !== SHELL && name !== PAGES).map((name) => caches.delete(name)));
}

/** Names of these files change with what is in them: one that is here is right. */
async function keptFirst(request: Request): Promise<Response> {
  return (await caches.match(request)) ?? fetch(request);
}

async function askedFirst(request: Request): Promise<Response> {
  try {
    const answer = await fetch(request, { signal: AbortSignal.timeout(PATIENCE_MS) });
    const at = new URL(answer.url || request.url);
    if (at.pathname === DOOR || answer.status === 401) await forget();
    else if (answer.ok) await (await caches.open(PAGES)).put(pathOf(request), answer.clone());
    return answer;
  } catch (error) {
    const there = await (await caches.open(PAGES)).match(pathOf(request));
    if (there) return there;
    throw error;
  }
}

/** A page is kept once, whatever stands behind its path. */
function pathOf(request: Request): string {
  return new URL(request.url).pathname;
}

/** Pages and last views are taken off; entries that wait to be sent stay. */
async function forget(): Promise<void> {
  await caches.delete(PAGES);
  await new Promise<void>((over) => {
    const opening = indexedDB.open("moldwright");
    opening.onupgradeneeded = () => opening.transaction?.abort();
    opening.onerror = () => over();
    opening.onsuccess = () => clear(opening.result, over);
  });
}

function clear(database: IDBDatabase, over: () => void): void {
  if (!database.objectStoreNames.contains("views")) {
    database.close();
    return over();
  }
  const transaction = database.transaction("views", "readwrite");
  transaction.objectStore("views").clear();
  transaction.oncomplete = transaction.onabort = () => {
    database.close();
    over();
  };
}

export {};
