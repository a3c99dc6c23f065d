"""axe-core, from node_modules: what it finds on a page that bars a reader."""

from __future__ import annotations

from functools import cache
from typing import Any

from playwright.sync_api import Page
from tools.bundling.places import MODULES

GRAVE = ("serious", "critical")
RUN = "() => axe.run(document, {resultTypes: ['violations']})"


@cache
def script() -> str:
    """axe-core as it was fetched."""
    return (MODULES / "axe-core" / "axe.min.js").read_text(encoding="utf-8")


def barriers(page: Page) -> list[str]:
    """Each serious or critical finding: its rule, what it says, the elements. The page's own policy stays in force: the
    debugger brings the script, no element does."""
    page.evaluate(script())
    found: list[dict[str, Any]] = page.evaluate(RUN)["violations"]
    return [told(one) for one in found if one["impact"] in GRAVE]


def told(violation: dict[str, Any]) -> str:
    """One finding in a line."""
    places = ", ".join(str(node["target"]) for node in violation["nodes"][:5])
    return f"{violation['id']} ({violation['impact']}): {violation['help']}: {places}"


def barriers_in_both_looks(page: Page) -> list[str]:
    """The same in light and in dark, as the system asks for them."""
    found = []
    for look in ("light", "dark"):
        page.emulate_media(color_scheme=look)
        found += [f"{look}: {one}" for one in barriers(page)]
    page.emulate_media(color_scheme="light")
    return found
