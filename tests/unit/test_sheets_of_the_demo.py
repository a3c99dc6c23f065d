"""How many sheets the demo comes to: asked for are at most 12 for the mold, 3 for a cast and one log for 24 casts, on
the paper that it names, in both systems of units; the maps of the glove were asked for later and are counted apart.
Letter is 18 mm lower: one sheet more each. Counted by pypdf, which has no part in making them."""

from __future__ import annotations

import re
from pathlib import Path

import pypdf
import pytest

from moldwright.commission.orders import UnitSystem
from moldwright.making.demo.original import write_demo
from moldwright.making.order import gather
from moldwright.making.plan import plan_into
from moldwright.making.store import store_of

pytestmark = pytest.mark.slow


def _progress(_stage: str, _share: float) -> None:
    pass


@pytest.fixture(scope="module")
def folders(tmp_path_factory: pytest.TempPathFactory) -> dict[UnitSystem, Path]:
    place = tmp_path_factory.mktemp("demo")
    commission, cache = write_demo(place), store_of(place / "cache", False)
    made = {}
    for units in UnitSystem:
        text = commission.read_text(encoding="utf-8")
        other = commission.with_name(f"{units}.toml")
        text, count = re.subn(r'^units = ".*"$', f'units = "{units}"', text, flags=re.MULTILINE)
        assert count == 1
        other.write_text(text, encoding="utf-8")
        made[units] = place / f"plan-{units}"
        made[units].mkdir()
        plan_into(made[units], gather(other), cache, _progress)
    return made


@pytest.mark.parametrize("units", UnitSystem)
@pytest.mark.parametrize(("paper", "more"), [("a4", 0), ("letter", 1)])
def test_twelve_three_and_one(folders: dict[UnitSystem, Path], units: UnitSystem, paper: str, more: int) -> None:
    pages = [page.extract_text() for page in pypdf.PdfReader(folders[units] / "sheets" / f"bench-{paper}.pdf").pages]
    said = re.search(r"From\s+sheet\s+(\d+):\s+a\s+cast.*From\s+sheet\s+(\d+):\s+the\s+log", pages[0], re.DOTALL)
    assert said
    cast, log = (int(number) for number in said.groups())
    maps = sum("Drawings: maps of the glove" in page for page in pages)
    assert "Wash and dry the glove" in pages[cast - 1]
    assert "A line for each cast" in pages[log - 1]
    assert maps <= 2
    assert cast - 1 - maps <= 12 + more
    assert log - cast <= 3 + more
    assert len(pages) - log + 1 == 1
