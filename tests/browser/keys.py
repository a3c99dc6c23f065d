"""A page as it is walked by the Tab key alone."""

from __future__ import annotations

from playwright.sync_api import Page

MOST = 600
"""No page has so many places; a walk that goes on is caught in one."""
ROUNDS = 4
"""So often the caret may be nowhere: a page may begin with it in its midst, and the browser has stops of its own."""
PLACES = """() => {
  const all = 'a[href], button, summary, select, textarea, input:not([type=hidden]), [tabindex="0"]';
  const shown = (it) => it.checkVisibility({visibilityProperty: true}) && !it.disabled && it.tabIndex >= 0;
  const form = (it) => [...document.forms].indexOf(it.form);
  const id = (it, n) => it.type === 'radio' ? `radio ${form(it)} ${it.name}` : `${n}`;
  const told = (it) => (it.getAttribute('aria-label') || it.textContent || it.name).trim().slice(0, 40);
  return [...document.querySelectorAll(all)].filter((it) => shown(it) && !it.closest('[inert]'))
    .map((it, n) => ({it, id: id(it, n), told: `${it.tagName.toLowerCase()} ${told(it)}`}));
}"""
"""By their order, which stays where a page draws them anew; radio buttons of one name are one place."""
MEANT = f"() => ({PLACES})().map((each) => [each.id, each.told])"
AT = """() => {
  const it = document.activeElement;
  if (!it || it === document.body || it === document.documentElement) return null;
  const known = (PLACES)().find((each) => each.it === it);
  const whole = it.closest('label') ?? it, seen = [it, whole, it.parentElement];
  const marked = (one) => {
    const style = getComputedStyle(one);
    return style.outlineStyle !== 'none' && Number.parseFloat(style.outlineWidth) > 0;
  };
  const box = whole.getBoundingClientRect(), [x, y] = [box.x + box.width / 2, box.y + Math.min(box.height / 2, 40)];
  const there = document.elementFromPoint(x, y);
  const clear = there !== null && (whole.contains(there) || there.contains(whole));
  const told = known?.told ?? it.outerHTML.slice(0, 80);
  const stays = (one) => ['fixed', 'sticky'].includes(getComputedStyle(one).position);
  const apart = (one) => one !== null && (one.matches('.skip') || stays(one) || apart(one.parentElement));
  const edges = [box.left + scrollX, box.top + scrollY, box.right + scrollX, box.bottom + scrollY];
  const id = known?.id ?? told, lies = apart(it) ? null : edges;
  return {id, told, marked: seen.some(marked), clear: clear || it.matches('.skip'), lies};
}""".replace("PLACES", PLACES)


SETTLES_MS = 500
"""What lies under something is looked at again: the page may still have been moving. Our own."""


def against_the_page(before: list[float] | None, now: list[float] | None) -> bool:
    """Whether a step went back: to what lies wholly above and not to the right, as a further column does.

    Parameters
    ----------
    before, now : left, top, right, bottom on the page [CSS px]; None for what stays while the page moves, a bar.
    """
    return before is not None and now is not None and now[3] <= before[1] and now[0] < before[2]


def walked(page: Page) -> dict[str, list[str]]:
    """What is wrong for who has a keyboard alone: nothing marks the place, something lies over it, it is not reached,
    it comes after what stands below it, or the walk does not come round.

    WCAG 2.2: 2.1.1, 2.1.2, 2.4.3, 2.4.7, 2.4.11.

    Parameters
    ----------
    page : as it stands.
    """
    meant: dict[str, str] = dict(page.evaluate(MEANT))
    reached: set[str] = set()
    wrong: dict[str, list[str]] = {"unmarked": [], "under something": [], "against the page": [], "never left": []}
    last, lies, rounds = "", None, 0
    for _ in range(MOST):
        page.keyboard.press("Tab")
        at = page.evaluate(AT)
        if at is not None and not at["clear"]:
            page.wait_for_timeout(SETTLES_MS)
            at = page.evaluate(AT)
        if at is None:
            rounds, last, lies = rounds + 1, "", None
            if rounds == ROUNDS:
                break
            continue
        if at["id"] == last:
            continue
        last, lies, before = at["id"], at["lies"], lies
        if last in reached:
            continue
        reached.add(at["id"])
        if not at["marked"]:
            wrong["unmarked"].append(at["told"])
        if not at["clear"]:
            wrong["under something"].append(at["told"])
        if against_the_page(before, lies):
            wrong["against the page"].append(at["told"])
    else:
        wrong["never left"].append(page.url)
    wrong["not reached"] = [told for id_, told in meant.items() if id_ not in reached]
    return {what: each for what, each in wrong.items() if each}
