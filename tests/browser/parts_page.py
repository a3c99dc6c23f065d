"""A page with every shared part in every state, served to a browser without a server, under the desk's own policy."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace
from urllib.parse import urlsplit

from playwright.sync_api import Page, Route

from moldwright.units.system import UnitSystem
from moldwright.web.assets import BUILT, assets
from moldwright.web.doors.headers import POLICY
from moldwright.web.page import DeskPlace
from moldwright.web.reader import DeskReader
from moldwright.web.render import environment
from moldwright.web.words.marked import words

TEMPLATE = Path(__file__).parent / "parts.html"
ADDRESS = "http://parts.test/"
LOOKS = ("light", "dark", "contrast")
ON_PHONE = ("Today", "Take in", "Days", "Shelf")
PLACES = (*ON_PHONE, "Molds", "Editions", "Prices", "Shop")
KINDS = {".css": "text/css", ".js": "text/javascript", ".woff2": "font/woff2"}


def html(look: str) -> str:
    """The page, with the bar that all pages have."""
    places = [
        DeskPlace(words(name), "/" if number == 0 else f"/{number}", number, name in ON_PHONE)
        for number, name in enumerate(PLACES)
    ]
    reader = DeskReader(None, "en", UnitSystem.METRIC, look)
    given = {"request": SimpleNamespace(), "reader": reader, "visitor": None, "places": places, "piece_parts": (),
             "name": "parts", "assets": assets(), "path": "/", "look": look, "trying": False}  # fmt: skip
    return environment().from_string(TEMPLATE.read_text(encoding="utf-8")).render(given)


def open_parts(page: Page, look: str) -> None:
    """The page shown, its faces loaded."""
    page.route("**/*", lambda route: answer(route, look))
    page.goto(ADDRESS)
    page.evaluate("document.fonts.ready.then(() => 1)")


def answer(route: Route, look: str) -> None:
    """What the desk would answer."""
    path = Path(urlsplit(route.request.url).path)
    if path == Path("/"):
        route.fulfill(body=html(look), content_type="text/html", headers={"content-security-policy": POLICY})
    elif path.is_relative_to("/built") and (BUILT / path.name).is_file():
        route.fulfill(body=(BUILT / path.name).read_bytes(), content_type=KINDS[path.suffix])
    else:
        route.fulfill(status=404)
