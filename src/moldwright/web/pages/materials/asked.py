"""What is asked of the sheets of materials, and what their calls take and give (OpenAPI)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Any

from fastapi import Query
from pydantic import BaseModel, Field

from moldwright.commission.reading import commission_from_toml
from moldwright.log.codes import short_code
from moldwright.materials.library import Library, library
from moldwright.records.pieces.listing import pieces
from moldwright.records.shop import Shop
from moldwright.web.of_piece import of_piece
from moldwright.web.own_sheets import library_of

MOST_LETTERS = 200_000
"""Of a sheet that is checked: our own, far above any."""
Of = Annotated[str, Query(max_length=80, description="A piece whose own sheets are laid on top, by its code.")]


class SheetSent(BaseModel):
    """A shop's own sheet, as its file holds it (TOML)."""

    text: str = Field(max_length=MOST_LETTERS)


@dataclass(frozen=True, slots=True)
class FoundInSheet:
    """What is wrong or doubtful about a sheet: `grave` where it is refused for it."""

    grave: bool
    where: str
    found: str
    wanted: str
    remedy: str


@dataclass(frozen=True, slots=True)
class SheetChecked:
    """What a check found, in words."""

    said: str
    findings: list[FoundInSheet]


@dataclass(frozen=True, slots=True)
class MaterialInList:
    """A material of the library; `own_file`: of which own sheet, null for a class that Moldwright ships."""

    kind: str
    id: str
    name: str
    own_file: str | None


@dataclass(frozen=True, slots=True)
class MaterialsTold:
    """The library."""

    materials: list[MaterialInList]


@dataclass(frozen=True, slots=True)
class MaterialTold:
    """One sheet, the same object as `moldwright materials show --json` has."""

    sheet: dict[str, Any]


def library_for(shop: Shop, of: str) -> Library:
    """The shipped classes, with a piece's own sheets on top where one is told.

    Parameters
    ----------
    shop : the records.
    of : a piece, "" for none.

    Raises as `library_of`, and `of_piece`.
    """
    if not of:
        return library()
    piece = of_piece(shop, of).piece
    return library_of(shop, piece, commission_from_toml(piece.commission).shop.sheets)


def pieces_with_sheets(shop: Shop) -> tuple[tuple[str, str], ...]:
    """Pieces that have sheets of their own: code and name.

    Parameters
    ----------
    shop : the records.
    """
    every = (known.piece for known in pieces(shop, away=True))
    own = (piece for piece in every if any(each.name.endswith(".toml") and "/" in each.name for each in piece.files))
    return tuple((short_code(piece.id), piece.name) for piece in own)
