/** A page's parts that tell figures, brought up to date from the server: each has an id and `data-fresh`. An answer that
 * another one has overtaken is `wanted` no longer. */

export async function freshen(address: string = location.href, wanted: () => boolean = () => true): Promise<boolean> {
  const answer = await fetch(address, { headers: { Accept: "text/html" }, credentials: "same-origin" });
  if (!answer.ok) return false;
  const there = new DOMParser().parseFromString(await answer.text(), "text/html");
  if (!wanted()) return true;
  const focus = document.activeElement?.id;
  for (const part of document.querySelectorAll<HTMLElement>("[data-fresh][id]")) {
    const fresh = there.getElementById(part.id);
    if (fresh) part.replaceWith(document.adoptNode(fresh));
  }
  if (focus && document.activeElement === document.body) document.getElementById(focus)?.focus();
  return true;
}
