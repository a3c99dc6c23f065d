/** What this device keeps of its own: entries that wait to be sent, and the last view of each run. */

const NAME = "moldwright";
const VERSION = 1;

export type Kept = "entries" | "views";

let opening: Promise<IDBDatabase> | undefined;

function opened(): Promise<IDBDatabase> {
  opening ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, VERSION);
    request.onupgradeneeded = () => {
      request.result.createObjectStore("entries", { keyPath: "seq", autoIncrement: true });
      request.result.createObjectStore("views", { keyPath: "run" });
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  return opening;
}

/** The answer to one question. */
export function asked<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

/** Everything in the act is kept, or nothing is; it is on the disk when this resolves. */
export async function writing(name: Kept, act: (store: IDBObjectStore) => void): Promise<void> {
  const transaction = (await opened()).transaction(name, "readwrite", { durability: "strict" });
  const over = new Promise<void>((resolve, reject) => {
    transaction.oncomplete = () => resolve();
    transaction.onabort = () => reject(transaction.error);
  });
  act(transaction.objectStore(name));
  await over;
}

/** What is there. */
export async function reading<T>(name: Kept, question: (store: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  return asked(question((await opened()).transaction(name).objectStore(name)));
}
