"""docs/sources.md is what the tests and the sheets say, and every file of tests/validation says whom it believes."""

from __future__ import annotations

import re
import sys
from importlib.machinery import SourceFileLoader
from importlib.util import module_from_spec, spec_from_loader
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "sources.md").read_text(encoding="utf-8")
VALIDATION = sorted((ROOT / "tests" / "validation").glob("test_*.py"))


def tool() -> ModuleType:
    loader = SourceFileLoader("sources_tool", str(ROOT / "tools" / "sources"))
    spec = spec_from_loader("sources_tool", loader)
    assert spec is not None
    module = module_from_spec(spec)
    sys.modules[spec.name] = module  # dataclasses look their module up
    loader.exec_module(module)
    return module


TOOL = tool()


@pytest.mark.parametrize("name", ["tests", "sheets"])
def test_the_page_is_up_to_date(name: str) -> None:
    """Else run tools/sources."""
    made = {"tests": TOOL.tests_section, "sheets": TOOL.sheets_section}[name]()
    assert TOOL.section(PAGE, name) == made


def test_what_is_weighed_is_as_the_sheets_say_and_still_from_memory() -> None:
    """Else run tools/sources --weigh."""
    known = {(row.key, row.sheet): row for row in TOOL.rows()}
    lines = re.findall(r"^\| `(\w+)` of ([^|]+) \| ([^|]+) \|", TOOL.section(PAGE, "weights"), flags=re.MULTILINE)
    assert len(lines) > 50
    for key, sheets, value in lines:
        for sheet in sheets.split(", "):
            row = known[key, sheet]
            assert value == TOOL.shown(row.figure), (key, sheet)
            assert TOOL.MEMORY in row.figure.source, (key, sheet)


@pytest.mark.parametrize("path", VALIDATION, ids=lambda path: path.name)
def test_a_validation_test_names_its_source(path: Path) -> None:
    sources = TOOL.sources_in(path.read_text(encoding="utf-8"))
    assert sources, "give it a module constant SOURCE, a tuple of texts"
    assert all(len(source) > 20 for source in sources)


def test_what_a_test_names_is_read_from_its_text() -> None:
    text = 'A = "Author, Journal 1 (1900) 1"\nSOURCE = (\n    A,\n    "Other, "\n    "2 (1901)",\n    *("Third",),\n)\n'
    assert TOOL.sources_in(text) == ["Author, Journal 1 (1900) 1", "Other, 2 (1901)", "Third"]
    assert TOOL.sources_in("SOURCE = [1]") == []


def test_a_section_is_replaced_whole() -> None:
    page = "a\n<!-- tests -->\nold\nolder\n<!-- /tests -->\nb"
    assert TOOL.with_section(page, "tests", "new") == "a\n<!-- tests -->\nnew\n<!-- /tests -->\nb"


def test_most_figures_that_can_be_looked_up_are_not_from_memory() -> None:
    """Densities of what a handbook lists: every powder's grain but hollow glass and stainless steel."""
    memory = {row.sheet for row in TOOL.rows() if row.key == "true_density_g_ml" and row.trust == TOOL.MEMORY}
    assert memory == {"microballoons", "stainless-steel"}


def test_no_test_cites_a_list_that_a_reader_does_not_have() -> None:
    for path in (ROOT / "tests").rglob("*.py"):
        if path != Path(__file__):
            assert not re.search(r"check values|\brows? \d+ of", path.read_text(encoding="utf-8")), path.name
