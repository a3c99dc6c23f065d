"""The scripts, styles and fonts that `tools/pages` bundles, by their page."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

from moldwright.errors import ComputationFailed

BUILT = Path(__file__).parent / "built"
URL = "/built"


@dataclass(frozen=True, slots=True)
class Assets:
    """What is bundled: file names under `URL`, by page; "base" is on every page."""

    scripts: Mapping[str, str] = field(default_factory=dict)
    styles: Mapping[str, str] = field(default_factory=dict)

    def script(self, page: str) -> str:
        """Where a page's script is, "" for none.

        Parameters
        ----------
        page : its folder's name.
        """
        return f"{URL}/{self.scripts[page]}" if page in self.scripts else ""

    def style(self, page: str) -> str:
        """Where a page's style is, "" for none.

        Parameters
        ----------
        page : its folder's name.
        """
        return f"{URL}/{self.styles[page]}" if page in self.styles else ""


@cache
def assets() -> Assets:
    """What is bundled; nothing where a checkout has not been bundled yet."""
    try:
        told: dict[str, Any] = json.loads((BUILT / "manifest.json").read_text(encoding="utf-8"))
    except FileNotFoundError:
        return Assets()
    return Assets(told["scripts"], told["styles"])


def refuse_unbundled() -> None:
    """Refuse to start without scripts and styles.

    Raises ComputationFailed ("desk-not-bundled").
    """
    if not assets().scripts:
        remedy = "In a checkout: `make pages`. An installed package that lacks them is broken: install it again."
        raise ComputationFailed("desk-not-bundled", "no scripts and styles", "those of the pages", "", remedy)
