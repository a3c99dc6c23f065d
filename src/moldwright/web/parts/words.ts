/** The page's own words, as the server said them in the reader's language. */

let words: Readonly<Record<string, string>> | undefined;

/** A sentence by its name, with what belongs in its braces. */
export function say(name: string, values: Readonly<Record<string, string | number>> = {}): string {
  words ??= JSON.parse(document.getElementById("page-words")?.textContent ?? "{}") as Record<string, string>;
  let told = words[name] ?? name;
  for (const [key, value] of Object.entries(values)) told = told.replaceAll(`{${key}}`, String(value));
  return told;
}

/** A sentence about one, or about so many. */
export function sayCount(name: string, count: number): string {
  return say(count === 1 ? `${name}-one` : `${name}-many`, { count });
}
