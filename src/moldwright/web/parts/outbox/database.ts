/** What this device keeps of its own: entries that wait to be sent, and the last view of each run. */

const NAME = "moldwright";
const VERSION = 1;

export type Kept = "entries" | "views";

let opening: Promise<IDBDatabase> | undefined;

/** Opened once; what failed, or was closed by the browser meanwhile, is opened anew the next time. */
function opened(): Promise<IDBDatabase> {
  opening ??= open().catch((error: unknown) => {
    opening = undefined;
    throw error;
  });
  return opening;
}

function open(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, VERSION);
    request.onupgradeneeded = () => {
      request.result.createObjectStore("entries", { keyPath: "seq", autoIncrement: true });
      request.result.createObjectStore("views", { keyPath: "run" });
    };
    request.onsuccess = () => {
      request.result.onclose = () => (opening = undefined);
      resolve(request.result);
    };
    request.onerror = () => reject(request.error);
  });
}

/** Some browsers close a page's database while it sleeps and tell nobody: then it is opened once more. */
async function within<T>(act: (database: IDBDatabase) => Promise<T>): Promise<T> {
  try {
    return await act(await opened());
  } catch (error) {
    if (!(error instanceof DOMException) || error.name !== "InvalidStateError") throw error;
    opening = undefined;
    return act(await opened());
  }
}

/** The answer to one question. */
export function asked<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

/** Everything in the act is kept, or nothing is; it is on the disk when this resolves. */
export function writing(name: Kept, act: (store: IDBObjectStore) => void): Promise<void> {
  return within((database) => {
    const transaction = database.transaction(name, "readwrite", { durability: "strict" });
    const over = new Promise<void>((resolve, reject) => {
      transaction.oncomplete = () => resolve();
      transaction.onabort = () => reject(transaction.error);
    });
    act(transaction.objectStore(name));
    return over;
  });
}

/** What is there. */
export function reading<T>(name: Kept, question: (store: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  return within((database) => asked(question(database.transaction(name).objectStore(name))));
}
