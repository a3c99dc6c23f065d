"""What can be measured of a page as it is laid out."""

from __future__ import annotations

from playwright.sync_api import Page

SMALL = """(least) => {
  const words = (it) => (it.getAttribute('aria-label') || it.textContent || it.name || it.tagName).trim().slice(0, 40);
  const shown = (it) => it.checkVisibility({visibilityProperty: true}) && !it.closest('.unseen, .skip');
  const inText = (it) => it.matches('p a, li a, td a, dd a') && getComputedStyle(it).display === 'inline';
  const all = 'a[href], button, summary, select, textarea, input:not([type=hidden]), [role=button]';
  return [...document.querySelectorAll(all)].filter((it) => shown(it) && !inText(it)).map((it) => {
    const pressed = it.matches('input[type=radio], input[type=checkbox]') && it.closest('label') || it;
    const box = pressed.getBoundingClientRect();
    return {words: words(it), wide: box.width, tall: box.height};
  }).filter((it) => it.wide < least - 0.5 || it.tall < least - 0.5)
    .map((it) => `${it.words}: ${it.wide.toFixed(0)} x ${it.tall.toFixed(0)} px`);
}"""
WIDER = """() => {
  const wide = document.documentElement.clientWidth, all = document.documentElement.scrollWidth;
  const over = (it) => it.getBoundingClientRect().right > wide + 1 && !it.closest('svg, .scroll');
  const told = (it) => `${it.tagName.toLowerCase()} ${it.className}: ${it.textContent.trim().slice(0, 30)}`;
  if (all <= wide) return [];
  const first = [...document.querySelectorAll('body *')].filter(over).slice(0, 5);
  return [`the page is ${all} px wide on ${wide} px`, ...first.map(told)];
}"""
CUT = """() => {
  const own = (it) => [...it.childNodes].some((each) => each.nodeType === 3 && each.textContent.trim());
  const hides = (it) => ['hidden', 'clip'].some((how) => getComputedStyle(it).overflow.includes(how));
  const part = (it) => Number.parseFloat(getComputedStyle(it).fontSize) / 4;
  const over = (it) => it.scrollHeight > it.clientHeight + part(it) || it.scrollWidth > it.clientWidth + part(it);
  const shown = (it) => it.checkVisibility({visibilityProperty: true}) && !it.closest('.unseen, .skip, svg');
  return [...document.querySelectorAll('body *')].filter((it) => own(it) && hides(it) && shown(it) && over(it))
    .map((it) => `${it.tagName.toLowerCase()} ${it.className}: ${it.textContent.trim().slice(0, 40)}`);
}"""

SPILT = """() => {
  const own = (it) => [...it.childNodes].some((each) => each.nodeType === 3 && each.textContent.trim());
  const shown = (it) => it.checkVisibility({visibilityProperty: true}) && !it.closest('.unseen, .skip, svg, .over');
  const open = (it) => getComputedStyle(it).overflowX === 'visible' && getComputedStyle(it).display !== 'inline';
  const part = (it) => Number.parseFloat(getComputedStyle(it).fontSize) / 4;
  const wider = (it) => own(it) && it.scrollWidth > it.clientWidth + part(it);
  const beyond = (it) => {
    const sheet = it.closest('.sheet'), scrolls = it.closest('.scroll');
    return sheet && !scrolls && it.getBoundingClientRect().right > sheet.getBoundingClientRect().right + 1;
  };
  return [...document.querySelectorAll('body *')].filter((it) => shown(it) && open(it) && (wider(it) || beyond(it)))
    .map((it) => `${it.tagName.toLowerCase()} ${it.className}: ${it.textContent.trim().slice(0, 40)}`);
}"""


def too_small(page: Page, least_px: float) -> list[str]:
    """Whatever is pressed and is smaller than that; a link within a sentence may be (WCAG 2.2, 2.5.8, "inline")."""
    return list(page.evaluate(SMALL, least_px))


def sideways(page: Page) -> list[str]:
    """What makes a page scroll sideways; nothing where it does not."""
    return list(page.evaluate(WIDER))


def double_text(page: Page) -> None:
    """Text at 200 %, as a reader sets it in the browser."""
    page.evaluate("document.documentElement.style.fontSize = '200%'")


def cut_off(page: Page) -> list[str]:
    """Text of which a part cannot be seen, as its box hides what is larger; a quarter of a letter's size is none."""
    return list(page.evaluate(CUT))


def spilt(page: Page) -> list[str]:
    """Text that runs out of its own box, into what stands beside it, and what stands beyond the edge of its sheet."""
    return list(page.evaluate(SPILT))
