"""What can be tried on a piece, and the commission that it makes."""

from __future__ import annotations

from dataclasses import dataclass

from pydantic import BaseModel, Field

from moldwright.commission.changed import changed_commission
from moldwright.commission.reading import commission_from_toml
from moldwright.errors import InputRefused
from moldwright.materials.library import Library
from moldwright.plan.mold import MOST_PIECES
from moldwright.records.pieces.piece import TakenPiece
from moldwright.records.shop import Shop
from moldwright.units import show_length, show_temperature
from moldwright.units.system import UnitSystem
from moldwright.web.own_sheets import library_of
from moldwright.web.typed_in import Quantity
from moldwright.words.speaker import in_house_marks

LONG = 80


class TrialAsked(BaseModel):
    """What is tried, as the commission writes it; what is left out stays."""

    rubber: str | None = Field(None, max_length=LONG)
    thickness: Quantity | None = Field(None, max_length=LONG)
    temperature: Quantity | None = Field(None, max_length=LONG)
    count: int | None = Field(None, ge=1, le=100_000)
    powder: str | None = Field(None, max_length=LONG)
    pieces: int | None = Field(None, ge=1, le=MOST_PIECES)


@dataclass(frozen=True, slots=True)
class AskedNow:
    """What is asked for now, and what could be: ids and names of materials, the shop's own sheets among them.

    `thickness` "": coats are told each; `pieces` 0: as recommended.
    """

    rubber: str
    rubbers: tuple[tuple[str, str], ...]
    thickness: str
    temperature: str
    count: int
    powder: str
    powders: tuple[tuple[str, str], ...]
    pieces: int


PLACES = {
    "rubber": ("mold", "rubber"),
    "thickness": ("mold", "thickness"),
    "temperature": ("shop", "temperature"),
    "count": ("edition", "count"),
    "powder": ("cast", "powder"),
    "pieces": ("mold", "pieces"),
}


def asked_now(shop: Shop, piece: TakenPiece, units: UnitSystem) -> AskedNow:
    """What a piece's commission asks for.

    Parameters
    ----------
    shop : where its own sheets are kept.
    piece : it.
    units : of who reads.

    Raises as `library_of` does.
    """
    order = commission_from_toml(piece.commission)
    known = library_of(shop, piece, order.shop.sheets)
    rubber, powder = _meant(known, "rubber", order.mold.rubber), _meant(known, "powder", order.cast.powder)
    return AskedNow(
        rubber=rubber,
        rubbers=_sheets(known, "rubber", rubber),
        thickness="" if order.mold.coats else show_length(order.mold.thickness_mm, units),
        temperature=show_temperature(order.shop.temperature_c, units),
        count=order.edition.count,
        powder=powder,
        powders=_sheets(known, "powder", powder),
        pieces=order.mold.pieces or 0,
    )


def tried_commission(shop: Shop, piece: TakenPiece, asked: TrialAsked, units: UnitSystem) -> str:
    """The piece's commission with what is tried.

    Parameters
    ----------
    shop : where its own sheets are kept.
    piece : it.
    asked : what is tried.
    units : of who reads.

    Raises InputRefused ("nothing-changed", and those of a commission).
    """
    now = asked_now(shop, piece, units)
    values = {
        PLACES[name]: value
        for name, value in asked.model_dump(exclude_none=True).items()
        if value not in ("", _in_house(getattr(now, name)))
    }
    if not values:
        raise InputRefused("nothing-changed", "as it is planned", "something else", "", "Change a value, then try it.")
    return changed_commission(piece.commission, values)


def _in_house(value: str | int) -> str | int:
    return in_house_marks(value) if isinstance(value, str) else value


def _meant(known: Library, kind: str, asked: str) -> str:
    """The id of what a commission asks for by id or name; as it is written where no sheet has it any more."""
    try:
        return known.find(f"{kind} {asked}")[1].id
    except InputRefused:
        return asked


def _sheets(known: Library, kind: str, now: str) -> tuple[tuple[str, str], ...]:
    every = tuple((sheet.id, sheet.name) for sheet in known.all(kind))
    return every if now in dict(every) else ((now, now), *every)
