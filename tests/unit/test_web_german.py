"""The desk in another language: no page shows a sentence in English that its catalog has in that language."""

from __future__ import annotations

import re
from collections.abc import Iterator
from html.parser import HTMLParser

from babel.messages.pofile import read_po
from bench_plans import bench_plan
from fastapi.testclient import TestClient
from tests.at_desk import DeskHand, Roles, desk, roles
from tests.browser.shop_scene import in_shop
from tools.catalogs import NAME, WORDS, forms
from tools.said_below import materials

__all__ = ["Roles", "desk", "roles"]
LANGUAGE = {"accept-language": "de", "accept": "text/html"}
LEAST_WORDS = 3
"""A sentence of fewer words may be somebody's own: a name, a note."""
MOST_PAGES = 30
NAMED = "Otter on a stone"
"""The piece's own name, which a page shows as an example too."""
UNREAD = ("script", "style", "option")
"""What is not read, or is chosen from the library by the very name that it reads."""
SHOWN = ("aria-label", "alt", "title", "placeholder")
PLACE = re.compile(r"%\(\w+\)[sd]|\{[\w.]+(?::[\w -]+)?\}|%%")


class Texts(HTMLParser):
    """The texts of a page that somebody reads or hears, and where it leads; what is typed stays as it is read."""

    def __init__(self) -> None:
        super().__init__()
        self.texts: list[str] = []
        self.links: list[str] = []
        self._inside: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._inside = [*self._inside, tag] if tag in UNREAD else self._inside
        told = dict(attrs)
        self.texts += [told[name] or "" for name in told if name in SHOWN or name.startswith("data-")]
        if tag == "a" and told.get("href"):
            self.links.append(told["href"] or "")

    def handle_endtag(self, tag: str) -> None:
        if self._inside and tag == self._inside[-1]:
            self._inside = self._inside[:-1]

    def handle_data(self, data: str) -> None:
        if not self._inside and data.strip():
            self.texts.append(" ".join(data.split()))


def english() -> list[tuple[str, str, re.Pattern[str]]]:
    """Sentences of the catalog whose German is another: with their longest part, and as they look with figures in."""
    with (WORDS / "de" / NAME).open("rb") as file:
        kept = read_po(file, locale="de")
    own = set(materials())
    both = [pair for m in kept if m.id and m.id not in own for pair in zip(forms(m.id), forms(m.string), strict=False)]
    told = [said for said, german in both if german not in ("", said) and _words(said) >= LEAST_WORDS]
    return [(said, max(PLACE.split(said), key=len), _looks(said)) for said in told]


def found_in(text: str, known: list[tuple[str, str, re.Pattern[str]]]) -> list[str]:
    """The English sentences that a text has."""
    return [said for said, part, looks in known if part in text and looks.search(text)]


def _words(said: str) -> int:
    return len(re.findall(r"[A-Za-z]{2,}", PLACE.sub("", said)))


def _looks(said: str) -> re.Pattern[str]:
    parts = [re.escape(part) for part in PLACE.split(said)]
    return re.compile(r"(?:^|(?<=\W))" + ".{1,60}?".join(parts))


def crawled(client: TestClient) -> Iterator[tuple[str, list[str]]]:
    """Every page that can be reached from Today by links without a query, each kind of page a few times."""
    waiting, seen = ["/", "/wall", "/door", "/trust"], set[str]()
    while waiting and len(seen) < MOST_PAGES:
        path = waiting.pop(0)
        if path in seen or not path.startswith("/") or path.startswith(("/api", "/files", "/built")):
            continue
        seen.add(path)
        answer = client.get(path, headers=LANGUAGE)
        if "text/html" not in answer.headers.get("content-type", ""):
            continue
        page = Texts()
        page.feed(answer.text)
        yield path, page.texts
        waiting += [link.partition("#")[0] for link in page.links if "?" not in link]


def test_no_page_shows_what_it_could_say_in_german(desk: DeskHand) -> None:
    in_shop(desk.shop, bench_plan(4), 12)
    known, paths, wrong = english(), [], []
    for path, texts in crawled(desk.client):
        paths.append(path)
        text = " \n ".join(texts).replace(NAMED, "")
        wrong += [f"{path}: {said}" for said in found_in(text, known)]
    assert len(paths) > 15, paths
    assert not wrong


def test_english_would_be_found(desk: DeskHand) -> None:
    text = " \n ".join(_english_page(desk.client))
    assert found_in(text, english())


def _english_page(client: TestClient) -> list[str]:
    page = Texts()
    page.feed(client.get("/", headers={"accept": "text/html"}).text)
    return page.texts


def test_the_bench_tells_its_presses_in_german(desk: DeskHand) -> None:
    """Every press that the screen shows and its own buttons; "Notiz" and "Etwas ging schief" are always among them."""
    scene = in_shop(desk.shop, bench_plan(4), 12)
    told = desk.client.get(f"/api/bench/{scene.run}", headers=LANGUAGE).text
    assert "Notiz" in told
    assert "Etwas ging schief" in told
    assert "Something went wrong" not in told
    page = desk.client.get(f"/bench/{scene.run}", headers=LANGUAGE).text
    assert "Werkbank verlassen" in page
