/** A name at the front of a line. */
export function capital(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}
