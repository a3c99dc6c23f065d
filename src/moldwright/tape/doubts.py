"""How well a tape tells a piece: the doubts of readings and the priors of form, from the data file."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from typing import Any

from moldwright.geometry.section_shape import Hollows, SectionShape


@dataclass(frozen=True, slots=True)
class ReadDoubt:
    """Half the width at 90 % of what a person reads."""

    girth_mm: float
    girth_share: float
    caliper_mm: float
    caliper_share: float
    at_mm: float
    tape_share: float


@dataclass(frozen=True, slots=True)
class Form:
    """What a form is like that a tape went round, and how far it may be otherwise."""

    level_share: float
    between: float
    between_least: float
    between_most: float
    between_most_off: float
    hull: float
    hull_slim: float
    regular: float
    regular_share: float
    folds_slim: float
    folds_share: float
    regular_folds_share: float
    gap_full: float
    gap_full_share: float
    join: float
    base_share: float
    top: float
    top_share: float


@dataclass(frozen=True, slots=True)
class Spanned:
    """Share of what the tape goes round that is there, half the width of its range, and area against the loft's."""

    share: float
    share_off: float
    folds: float = 1.0


@dataclass(frozen=True, slots=True)
class ShapeKind:
    """Sections of one shape note: slimness, squareness, and how far they may be otherwise."""

    slim: float
    slim_share: float
    square: float
    square_off: float


@lru_cache(maxsize=1)
def _data() -> dict[str, Any]:
    return tomllib.loads(files("moldwright.tape").joinpath("doubts.toml").read_text(encoding="utf-8"))


def reading() -> ReadDoubt:
    """How well a person reads.

    >>> reading().girth_mm
    2.0
    """
    return ReadDoubt(**_data()["reading"])


def form() -> Form:
    """What forms are like.

    >>> 0.0 < form().hull < 1.0
    True
    """
    return Form(**_data()["form"])


def kind(shape: SectionShape) -> ShapeKind:
    """What sections of a shape are like.

    Parameters
    ----------
    shape : as the maker notes it.

    >>> kind(SectionShape.ROUND).square
    0.5
    """
    return ShapeKind(**_data()["shape"][shape.value])


def spanned(hollows: Hollows | None) -> Spanned:
    """What the tape spans, as the maker says it.

    Parameters
    ----------
    hollows : None where nothing was said.

    >>> spanned(Hollows.NONE).share > spanned(None).share > spanned(Hollows.DEEP).share
    True
    """
    return Spanned(**_data()["hollows"]["unsaid" if hollows is None else hollows.value])


def spanned_by_limb(hollows: Hollows | None) -> Spanned:
    """The same of a limb, of what its superellipses hold.

    Parameters
    ----------
    hollows : None where nothing was said.

    >>> spanned_by_limb(Hollows.NONE).share > spanned_by_limb(Hollows.DEEP).share
    True
    """
    return Spanned(**_data()["limb"]["unsaid" if hollows is None else hollows.value])
