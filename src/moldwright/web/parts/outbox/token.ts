/** A page that was kept for working offline may have an old token: that of the page as it is now is taken. */

function meta(of: Document): HTMLMetaElement | null {
  return of.querySelector<HTMLMetaElement>('meta[name="token"]');
}

/** Whether there was another one. */
export async function renewToken(): Promise<boolean> {
  const answer = await fetch(location.href, { cache: "no-store", headers: { Accept: "text/html" } }).catch(() => undefined);
  if (!answer?.ok || answer.redirected) return false;
  const fresh = meta(new DOMParser().parseFromString(await answer.text(), "text/html"));
  const here = meta(document);
  if (!fresh?.content || !here || fresh.content === here.content) return false;
  here.content = fresh.content;
  return true;
}
