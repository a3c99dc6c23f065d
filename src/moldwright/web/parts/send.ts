/** Every act that a page asks the desk for, with the token of its session. */

import { NoAnswer, Refused } from "./refused";

export { NoAnswer, Refused } from "./refused";

/** The token of this page's session; every act carries it, so that no other site can act for us. */
export function token(): string {
  return document.querySelector<HTMLMetaElement>('meta[name="token"]')?.content ?? "";
}

/**
 * Send something and give what comes back: an object of JSON, or null for an answer without one. A Blob goes as it is,
 * anything else as JSON. Throws `Refused` with what the desk refused, `NoAnswer` where there was no answer.
 */
export async function send(method: string, path: string, body?: unknown, signal?: AbortSignal): Promise<any> {
  const answer = await called(method, path, body, signal);
  const told = await object(answer);
  if (answer.ok) return told;
  if (told?.error && told.said) throw new Refused(told.error, told.said, answer.status);
  throw new NoAnswer(`${method} ${path}: ${answer.status}`);
}

async function called(method: string, path: string, body: unknown, signal?: AbortSignal): Promise<Response> {
  const raw = body instanceof Blob;
  const headers: Record<string, string> = { Accept: "application/json", "X-Token": token() };
  if (body !== undefined) headers["Content-Type"] = raw ? "application/octet-stream" : "application/json";
  const asked: RequestInit = { method, headers, credentials: "same-origin" };
  if (body !== undefined) asked.body = raw ? body : JSON.stringify(body);
  if (signal) asked.signal = signal;
  try {
    return await fetch(path, asked);
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") throw error;
    throw new NoAnswer(`${method} ${path}`, { cause: error });
  }
}

async function object(answer: Response): Promise<any> {
  if (!(answer.headers.get("Content-Type") ?? "").startsWith("application/json")) return null;
  try {
    return await answer.json();
  } catch (error) {
    throw new NoAnswer("the answer broke off", { cause: error });
  }
}
