"""What pages show and no page says: sentences of the rooms' data files, and what refusals say whole."""

from __future__ import annotations

import ast
import re
import tomllib
from collections.abc import Collection, Iterator
from enum import StrEnum
from pathlib import Path
from typing import Any

from moldwright.commission.keys import keys
from moldwright.log.edition_events import PieceState
from moldwright.log.event import About
from moldwright.log.mold_events import MoldState
from moldwright.log.recipe_events import RecipeKind
from moldwright.log.run_events import Mishap
from moldwright.materials.gear import Gear
from moldwright.materials.sheet_fields import kind_rules, told
from moldwright.materials.shipped import shipped
from moldwright.materials.words import Kind
from moldwright.plan.coats import Gesture, PigmentColor
from moldwright.plan.mixes import MixKind, PartKind
from moldwright.records.molds.next_glove import GloveWhy
from moldwright.records.pieces.listing import PieceStage
from moldwright.records.stock.left import LotState
from moldwright.steps.placeholders import PLACE
from moldwright.steps.sentences import sentences
from moldwright.told.material_words import KINDS as KINDS_OF_SHEETS
from moldwright.told.plan_figures import FigureGroup
from moldwright.web.pages.take_in.fields import hint

PACKAGE = Path(__file__).resolve().parents[1] / "src" / "moldwright"
Said = str | tuple[str, str]
"""A sentence, or one in both forms where it counts something."""
TABLES = {
    "sheets/words.toml": ("tool", "need", "form", "besides", "mix", "task", "card"),
    "sheets/walls.toml": (),
    "sheets/repairs.toml": (),
    "units/tables.toml": ("unclear",),
    "materials/data/hazards.toml": ("statements", "short", "by_tag", "deference"),
}
"""Data files of words, and the tables of them that are shown; none: all."""
NOT_SHOWN = ("wall", "layer", "key", "color", "pattern", "kind", "pigment")
"""Keys of tables that hold no words."""
FAMILIES = ("InputRefused", "NoSafePlan", "ComputationFailed", "RecordConflict")
ARGUMENTS = ("code", "actual", "limit", "unit", "remedy")
SHOWN = ("actual", "limit", "remedy")
MARKS = ("figure", "word", "own_name", "named_key", "stands", "writes")
"""What stands in a place of a refusal's sentence: `moldwright.ways`."""
KINDS: tuple[type[StrEnum], ...] = (
    About, PartKind, MixKind, Gesture, PigmentColor, Mishap, LotState, MoldState, PieceState, RecipeKind, PieceStage,
    GloveWhy, Kind, Gear, FigureGroup,
)  # fmt: skip
"""Kinds whose own words are shown."""
SHEETS = ("rubbers", "resins", "powders", "shells", "coatings", "consumables")


def said_below() -> Iterator[Said]:
    """Every sentence."""
    for text in sentences().values():
        yield text
        yield from (_counted(noun) for _, noun in PLACE.findall(text) if noun)
    for name, tables in TABLES.items():
        tree = tomllib.loads((PACKAGE / name).read_text("utf-8"))
        shown = {key: tree[key] for key in tables} if tables else tree
        yield from _texts(shown)
    yield from materials()
    yield from cautions()
    yield from (told(key) for rule in kind_rules().values() for key in rule.keys)
    yield from KINDS_OF_SHEETS
    yield from (each.value for kind in KINDS for each in kind)
    yield from (hint(key) for table in keys().values() for key in table.values())
    for file in sorted(PACKAGE.rglob("*.py")):
        if file.relative_to(PACKAGE).parts[0] != "desk":
            yield from _refusals(ast.parse(file.read_text("utf-8")))


def materials() -> Iterator[str]:
    """What materials are called: a reader may type them, so a list of them to choose from stays in English."""
    for name in SHEETS:
        yield from _names(shipped(name))


def _counted(noun: str) -> tuple[str, str]:
    return f"{{told}} {noun}", f"{{told}} {noun}s"


def _texts(tree: Any) -> Iterator[str]:
    if isinstance(tree, str):
        yield tree
    elif isinstance(tree, list):
        for each in tree:
            yield from _texts(each)
    elif isinstance(tree, dict):
        for key, value in tree.items():
            if key not in NOT_SHOWN:
                yield from _texts(value)


def _names(tree: Any) -> Iterator[str]:
    """What each sheet is called, and what its parts are."""
    for kinds in tree.values():
        for sheet in kinds.values() if isinstance(kinds, dict) else ():
            if isinstance(sheet, dict):
                yield from (sheet[key] for key in ("name", "chemistry") if isinstance(sheet.get(key), str))


def cautions() -> Iterator[str]:
    """What each sheet warns of."""
    for name in SHEETS:
        for kinds in shipped(name).values():
            for sheet in kinds.values() if isinstance(kinds, dict) else ():
                yield from sheet.get("cautions", ()) if isinstance(sheet, dict) else ()


def _refusals(tree: ast.AST) -> Iterator[str]:
    """What is said whole where something is refused, keys, figures and names in their places; what has others in it
    says it by `say`."""
    marks = {name for node in ast.walk(tree) if isinstance(node, ast.Assign) for name in _marks_named(node)}
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef):
            yield from _given(node, marks)
        if isinstance(node, ast.Call):
            for part in _shown(node):
                yield from _whole(part, marks)


def _given(function: ast.FunctionDef, marks: Collection[str]) -> Iterator[str]:
    """What a function says in a refusal under a name."""
    shown = (part for node in ast.walk(function) if isinstance(node, ast.Call) for part in _shown(node))
    names = {"remedy"} | {part.id for part in shown if isinstance(part, ast.Name)}
    for node in ast.walk(function):
        if isinstance(node, ast.Assign) and any(isinstance(to, ast.Name) and to.id in names for to in node.targets):
            yield from _whole(node.value, marks)


def _shown(call: ast.Call) -> Iterator[ast.expr]:
    """What a refusal shows; nothing of another call."""
    if isinstance(call.func, ast.Name) and call.func.id in FAMILIES:
        named = {each.arg: each.value for each in call.keywords}
        given = {**dict(zip(ARGUMENTS, call.args, strict=False)), **named}
        yield from (part for part in map(given.get, SHOWN) if part is not None)


def _marks_named(node: ast.Assign) -> Iterator[str]:
    """Names to which a mark is given."""
    for to in node.targets:
        pairs = zip(to.elts, node.value.elts, strict=False) if _both_tuples(to, node.value) else ((to, node.value),)
        yield from (name.id for name, value in pairs if isinstance(name, ast.Name) and _is_mark(value, frozenset()))


def _both_tuples(to: ast.expr, value: ast.expr) -> bool:
    return isinstance(to, ast.Tuple) and isinstance(value, ast.Tuple)


def _is_mark(value: ast.expr, marks: Collection[str]) -> bool:
    if isinstance(value, ast.Name):
        return value.id in marks
    return isinstance(value, ast.Call) and isinstance(value.func, ast.Name) and value.func.id in MARKS


def _whole(part: ast.expr | None, marks: Collection[str]) -> Iterator[str]:
    for each in (part.body, part.orelse) if isinstance(part, ast.IfExp) else (part,):
        if isinstance(each, ast.Constant) and isinstance(each.value, str) and each.value:
            yield each.value
        if isinstance(each, ast.JoinedStr) and (told := _template(each, marks)):
            yield told


def _template(sentence: ast.JoinedStr, marks: Collection[str]) -> str:
    """As `ways.parted` makes it of the sentence; "" of one with other places than marks, or nothing else."""
    told, places = "", 0
    for each in sentence.values:
        if isinstance(each, ast.Constant):
            told += str(each.value)
        elif isinstance(each, ast.FormattedValue) and _is_mark(each.value, marks) and not each.format_spec:
            told, places = f"{told}{{{places}}}", places + 1
        else:
            return ""
    return told if re.search("[a-z]{2}", re.sub(r"\{\d+\}", "", told)) else ""
