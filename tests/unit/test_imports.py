"""Imports run one way (docs/decisions/0001): no room imports a room beside it or after it, and nothing is hidden.

Read from the source by `ast`, so that a line that is never run counts too.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

SOURCE = Path(__file__).parents[2] / "src" / "moldwright"
LAYERS = (
    {"units", "errors", "ranges", "progress", "text", "words", "ways", "found_at"},
    {"store", "geometry", "materials", "child", "disk"},
    {"scan", "photos", "tape"},
    {"commission"},
    {"plan"},
    {"original", "cure", "log"},
    {"mold", "mixing"},
    {"cast"},
    {"quantities"},
    {"steps"},
    {"job", "checking", "bench"},
    {"records", "sheets"},
    {"told", "archive"},
    {"making"},
    {"web"},
    {"desk"},
)
LAYER = {room: number for number, rooms in enumerate(LAYERS) for room in rooms}
COMPUTING = {
    "units", "store", "geometry", "materials", "commission", "plan", "cure", "mold", "mixing", "cast", "quantities",
    "steps", "job", "checking", "text", "tape", "log", "bench", "words",
}  # fmt: skip
STARTED_FAST = {"making", "desk"}
"""A command loads what computes only when it is needed."""
OUTSIDE_WORLD = {"time", "datetime", "sqlite3", "sqlalchemy", "socket", "subprocess", "urllib", "random", "tempfile"}
FILES = sorted(path for path in SOURCE.rglob("*.py") if path.parent != SOURCE or path.stem in LAYER)

NAMED = re.compile(r"moldwright(\.\w+)+(:\w+)?")


def name_of(path: Path) -> str:
    return str(path.relative_to(SOURCE))


def room_of(path: Path) -> str:
    first = path.relative_to(SOURCE).parts[0]
    return first.removesuffix(".py")


def imported(tree: ast.AST) -> Iterator[tuple[ast.AST, str]]:
    """Every import with the module's full name; a text that names a module or a stage of it counts."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((node, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield node, node.module or ""
            yield from ((node, f"{node.module}.{alias.name}") for alias in node.names)
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and NAMED.fullmatch(node.value):
            yield node, node.value.partition(":")[0]


def rooms_imported(tree: ast.AST) -> set[str]:
    parts = [module.split(".") for _, module in imported(tree)]
    return {part[1] for part in parts if part[0] == "moldwright" and len(part) > 1 and part[1] in LAYER}


@pytest.mark.parametrize("path", FILES, ids=name_of)
def test_imports_run_one_way(path: Path) -> None:
    room = room_of(path)
    assert room in LAYER, f"{room} has no place among the layers"
    rooms = rooms_imported(ast.parse(path.read_text(encoding="utf-8"))) - {room}
    base = LAYERS[0] if room in LAYERS[0] else set()
    wrong = {other for other in rooms if LAYER[other] >= LAYER[room]} - base
    assert not wrong, f"{room} may not import {sorted(wrong)}"


@pytest.mark.parametrize("path", FILES, ids=name_of)
def test_imports_are_plain(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"line {node.lineno}: a relative import"
            assert all(alias.name != "*" for alias in node.names), f"line {node.lineno}: a star import"
    if room_of(path) in STARTED_FAST:
        return
    for function in ast.walk(tree):
        if isinstance(function, ast.FunctionDef | ast.AsyncFunctionDef):
            hidden = [node.lineno for node in ast.walk(function) if isinstance(node, ast.Import | ast.ImportFrom)]
            assert not hidden, f"line {hidden}: only what a command starts with imports inside functions"


@pytest.mark.parametrize("path", [path for path in FILES if room_of(path) in COMPUTING], ids=name_of)
def test_computing_rooms_know_no_file_clock_or_chance(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    modules = {module.partition(".")[0] for _, module in imported(tree)}
    assert not modules & OUTSIDE_WORLD
    opened = [
        n.lineno
        for n in ast.walk(tree)
        if isinstance(n, ast.Call) and isinstance(n.func, ast.Name) and n.func.id == "open"
    ]
    assert not opened, f"line {opened}: the desk hands over plain values"


@pytest.mark.parametrize("path", [path for path in FILES if room_of(path) != "desk"], ids=name_of)
def test_only_the_desk_knows_the_command_line(path: Path) -> None:
    modules = {module.partition(".")[0] for _, module in imported(ast.parse(path.read_text(encoding="utf-8")))}
    assert not modules & {"typer", "rich"}


def test_every_room_has_its_place_and_the_rule_can_fail() -> None:
    rooms = {path.name for path in SOURCE.iterdir() if path.is_dir() and (path / "__init__.py").exists()}
    assert rooms <= set(LAYER)
    wrong = rooms_imported(ast.parse("from moldwright.desk.main import app\nimport moldwright.job.planning"))
    assert wrong == {"desk", "job"}
    assert rooms_imported(ast.parse('Stage("moldwright.mold.shell:build_shell")')) == {"mold"}
