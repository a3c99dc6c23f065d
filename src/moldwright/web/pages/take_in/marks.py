"""Figures of what is asked for, from the marks of who types them to those of the house, and back."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from moldwright.commission.keys import ValueKind, keys
from moldwright.words.speaker import in_house_marks

FIGURES = frozenset((ValueKind.LENGTH, ValueKind.MASS, ValueKind.VOLUME, ValueKind.TEMPERATURE, ValueKind.DURATION,
                     ValueKind.SHARE, ValueKind.DENSITY, ValueKind.RATE))  # fmt: skip
WORDS = ("name", "where")
"""Cells of a row that hold words."""


def marks_turned(answers: Mapping[str, Any]) -> dict[str, Any]:
    """Answers with every figure in the other marks: as typed -> as a commission has it, and the same way back.

    Parameters
    ----------
    answers : by dotted key.
    """
    return {dotted: _turned(dotted, value) for dotted, value in answers.items()}


def _turned(dotted: str, value: Any) -> Any:
    table, _, name = dotted.partition(".")
    key = keys().get(table, {}).get(name)
    if isinstance(value, str):
        return in_house_marks(value) if key is not None and key.kind in FIGURES else value
    return _rows(value) if key is not None else value


def _rows(value: Any) -> Any:
    if isinstance(value, list):
        return [_rows(each) for each in value]
    if isinstance(value, dict):
        return {name: _cell(name, own) for name, own in value.items()}
    return value


def _cell(name: str, value: Any) -> Any:
    return value if name in WORDS else in_house_marks(value) if isinstance(value, str) else _rows(value)
