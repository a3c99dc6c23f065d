"""Which hazard pictograms stand beside a material's statements. The desk draws them, never without words."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from enum import StrEnum
from typing import Any

from moldwright.materials.shipped import shipped


class Pictogram(StrEnum):
    """Those that our statements ask for."""

    FLAME = "flame"
    CORROSION = "corrosion"
    SKULL = "skull"
    HEALTH = "health"
    EXCLAMATION = "exclamation"
    ENVIRONMENT = "environment"


def pictograms(codes: Iterable[str]) -> tuple[Pictogram, ...]:
    """The pictograms of these statements, the gravest for the hands first; what a graver one says already is left out.

    Parameters
    ----------
    codes : H codes of the GHS, of one material or of all that are open on a step.

    >>> [str(each) for each in pictograms(["H225", "H319", "H336"])]
    ['flame', 'exclamation']

    Source: Globally Harmonized System, annex 3 (codes and pictograms) and 1.4.10.5.3.1 (precedence), from memory.
    """
    told = frozenset(codes)
    by_kind = {kind: told & _statements(kind) for kind in Pictogram}
    left = {kind: asking - _outdone(kind, told, by_kind) for kind, asking in by_kind.items()}
    return tuple(kind for kind in Pictogram if left[kind])


def statements_of_rule(rule: str) -> tuple[str, ...]:
    """The statements that are usual of what one of our cautions is about; none of most.

    Parameters
    ----------
    rule : the caution's.

    >>> statements_of_rule("rag-fire"), statements_of_rule("blade")
    (('H251',), ())

    Source: common practice, no source; the product's own safety data sheet goes first.
    """
    by: dict[str, list[str]] = shipped("hazards")["statements_of_rule"]
    return tuple(by.get(rule, ()))


def _statements(kind: Pictogram) -> frozenset[str]:
    known: dict[str, list[str]] = shipped("hazards")["pictogram"]
    return frozenset(known[kind])


def _outdone(kind: Pictogram, told: Collection[str], by_kind: dict[Pictogram, frozenset[str]]) -> frozenset[str]:
    """Statements for which this pictogram is not shown, as a graver one is."""
    rows: list[dict[str, Any]] = shipped("hazards")["outdone"]
    graver = [row for row in rows if row["pictogram"] == kind and _stands(row, told, by_kind)]
    return frozenset(code for row in graver for code in row["statements"])


def _stands(row: dict[str, Any], told: Collection[str], by_kind: dict[Pictogram, frozenset[str]]) -> bool:
    if "by_statement" in row:
        return row["by_statement"] in told
    return bool(by_kind[Pictogram(row["by"])])
