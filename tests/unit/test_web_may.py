"""A page and its door never disagree: what would be refused to who reads a page is not on it.

The roles are the desk's own (decision 60). What each act needs is asked of the app's own routing (Starlette), and what
is read is really called.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser

import pytest
from at_desk import HERE, app_of, known_as
from conftest import Job
from fastapi.routing import iter_route_contexts
from fastapi.testclient import TestClient
from starlette.routing import Match
from tests.browser.filled_shop import NO_PAGES, fill

from moldwright.errors import ComputationFailed
from moldwright.web.app import create_app
from moldwright.web.doors.may import RolesNeeded
from moldwright.web.doors.needs import Needs
from moldwright.web.doors.visitor import Role
from moldwright.web.page import all_pages
from moldwright.web.settings import Settings

MW = re.compile(r"^mw-")


class Calls(HTMLParser):
    """What a page would call where one presses it, by method and path; and acts whose path no markup tells."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: set[tuple[str, str]] = set()
        self.untold: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = {name: value or "" for name, value in attrs}
        if MW.match(tag) and "path" in told:
            self.found.add((told.get("method", "POST"), told["path"]))
        for name in ("data-path", "data-trial"):
            if name in told:
                self.found.add((told.get("data-method", "POST"), told[name]))
        if tag == "a" and told.get("href", "").startswith("/"):
            self.found.add(("GET", told["href"]))
        if tag == "form" and told.get("action", "").startswith("/"):
            self.found.add((told.get("method", "GET").upper(), told["action"]))
        if "data-act" in told:
            self.untold.append(self.get_starttag_text() or tag)


@dataclass(slots=True)
class FilledDesk:
    """A desk with one of everything, and what its pages offer to a role."""

    client: TestClient
    addresses: dict[str, str]
    known: dict[tuple[Role, str], Calls | None] = field(default_factory=dict)

    def offered(self, role: Role, route: str) -> Calls | None:
        """What a page offers; None where its door is shut to the role."""
        if (role, route) not in self.known:
            answer = self.client.get(self.addresses.get(route, route), headers=self.as_(role))
            assert answer.status_code in (200, 403), (route, answer.text)
            self.known[role, route] = Calls(answer.text) if answer.status_code == 200 else None
        return self.known[role, route]

    def as_(self, role: Role) -> dict[str, str]:
        """Headers of a device of that role."""
        return known_as(app_of(self.client).state.doors, role) | {"accept": "text/html"}

    def needed(self, method: str, path: str) -> Role | None:
        """What the door asks for, by the app's own routing."""
        scope = {"type": "http", "method": method, "path": re.split(r"[?#]", path)[0], "root_path": ""}
        for route in iter_route_contexts(app_of(self.client).routes):
            if hasattr(route, "dependant") and route.matches(scope)[0] is Match.FULL:
                doors = [each.call for each in route.dependant.dependencies if isinstance(each.call, Needs)]
                return max((each.role for each in doors if each.role is not None), default=None)
        raise AssertionError(f"no route: {method} {path}")


@pytest.fixture(scope="module")
def filled(tmp_path_factory: pytest.TempPathFactory, small_job: Job) -> Iterator[FilledDesk]:
    home = tmp_path_factory.mktemp("filled")
    addresses = dict(fill(home, small_job))
    settings = Settings(str(home / "shop.db"), None, home / "desk", lan=True, hosts=("localhost",))
    with TestClient(create_app(settings), base_url=HERE, client=("192.0.2.7", 50000)) as client:
        yield FilledDesk(client, addresses)


def pages() -> list[str]:
    found = [route for each in all_pages().values() for route in iter_route_contexts(each.router.routes)]
    return sorted(
        route.path or ""
        for route in found
        if "GET" in (route.methods or ())
        and not route.include_in_schema
        and not (route.path or "").startswith("/api/")
        and "." not in (route.path or "")
        and route.path not in NO_PAGES
    )


@pytest.mark.parametrize("role", [Role.VIEW, Role.BENCH])
@pytest.mark.parametrize("route", pages())
def test_nothing_on_a_page_would_be_refused_to_who_reads_it(filled: FilledDesk, role: Role, route: str) -> None:
    offered = filled.offered(role, route)
    if offered is None:
        return
    refused = [(call, need) for call in offered.found if (need := filled.needed(*call)) and need > role]
    assert not refused
    if role is Role.VIEW:
        assert not offered.untold


def test_whose_role_grows_is_offered_more_and_nothing_less(filled: FilledDesk) -> None:
    every: dict[Role, set[tuple[str, str]]] = {role: set() for role in Role}
    for role in Role:
        for route in pages():
            offered = filled.offered(role, route)
            every[role] |= offered.found if offered else set()
    acts = {role: {call for call in found if call[0] != "GET"} for role, found in every.items()}
    assert acts[Role.VIEW] < acts[Role.BENCH] < acts[Role.OWNER]
    assert ("GET", "/take-in") not in every[Role.VIEW]
    assert any(path.endswith("/retire") for _, path in acts[Role.OWNER] - acts[Role.BENCH])
    assert any(path.endswith("/count") for _, path in acts[Role.BENCH] - acts[Role.VIEW])
    assert ("POST", "/api/door/out") in acts[Role.VIEW]


def test_no_link_of_who_only_looks_is_refused_for_the_role(filled: FilledDesk) -> None:
    headers, links = filled.as_(Role.VIEW), set()
    for route in pages():
        offered = filled.offered(Role.VIEW, route)
        links |= {path for method, path in offered.found if method == "GET"} if offered else set()
    assert len(links) > 20
    answers = {path: filled.client.get(path, headers=headers).status_code for path in sorted(links)}
    assert [path for path, status in answers.items() if status in (401, 403)] == []


def test_a_page_that_names_what_no_route_answers_is_a_fault(filled: FilledDesk) -> None:
    with pytest.raises(ComputationFailed, match="route-unknown"):
        RolesNeeded(app_of(filled.client)).of("POST", "/api/lots/there-is/no-such-act")
