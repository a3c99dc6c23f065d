"""Every page that there is: from the app's own routes, and by following links, one example of each."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from urllib.parse import urlsplit

from fastapi.routing import RouteContext, iter_route_contexts
from playwright.sync_api import Page

from moldwright.web.page import all_pages

PARAMETER = re.compile(r"\{[^}]*\}")
LINKS = "() => [...document.querySelectorAll('a[href]')].map((link) => link.href)"
MOST = 200


def routes() -> list[RouteContext]:
    """Routes that show a page: read, and no part of the API."""
    found = [route for page in all_pages().values() for route in iter_route_contexts(page.router.routes)]
    return [route for route in found if hasattr(route, "dependant") and shows(route)]


def shows(route: RouteContext) -> bool:
    """Whether it is a page: no part of the API, no file."""
    return "GET" in route.methods and not (
        route.include_in_schema or route.path.startswith("/api/") or "." in route.path
    )


def plain_paths() -> list[str]:
    """Pages whose address names no piece, run or lot."""
    return [route.path for route in routes() if not PARAMETER.search(route.path)]


def name_of(path: str) -> str:
    """A page's path as the name of a file."""
    return re.sub(r"[^a-z0-9]+", "-", PARAMETER.sub("one", path).lower()).strip("-") or "today"


def examples(page: Page, address: str, named: Iterable[str] = ()) -> Iterator[tuple[str, str]]:
    """One address of every kind of page, those that are named first, then those that links lead to, with its name; the
    page stands at it when it is given."""
    kinds = routes()
    waiting, seen, given = [address + path for path in (*named, *plain_paths())], set(), set()
    while waiting and len(seen) < MOST:
        at = waiting.pop(0)
        kind = next((route for route in kinds if route.path_regex.match(urlsplit(at).path)), None)
        if at in seen or kind is None or kind.path in given:
            continue
        seen.add(at)
        answer = page.goto(at)
        if answer is None or "text/html" not in answer.headers.get("content-type", ""):
            continue
        given.add(kind.path)
        yield name_of(kind.path), at
        waiting += [link.partition("#")[0] for link in page.evaluate(LINKS) if link.startswith(address)]
