"""What can be tried on a piece, and the commission that it makes."""

from __future__ import annotations

from dataclasses import dataclass

from pydantic import BaseModel, Field

from moldwright.commission.changed import changed_commission
from moldwright.commission.reading import commission_from_toml
from moldwright.errors import InputRefused
from moldwright.materials.library import library
from moldwright.records.pieces.piece import TakenPiece
from moldwright.units import show_length, show_temperature
from moldwright.units.system import UnitSystem

LONG = 80


class TrialAsked(BaseModel):
    """What is tried, as the commission writes it; what is left out stays."""

    rubber: str | None = Field(None, max_length=LONG)
    thickness: str | None = Field(None, max_length=LONG)
    temperature: str | None = Field(None, max_length=LONG)
    count: int | None = Field(None, ge=1, le=100_000)
    powder: str | None = Field(None, max_length=LONG)


@dataclass(frozen=True, slots=True)
class AskedNow:
    """What is asked for now, and what could be: ids and names of materials. `thickness` "": coats are told each."""

    rubber: str
    rubbers: tuple[tuple[str, str], ...]
    thickness: str
    temperature: str
    count: int
    powder: str
    powders: tuple[tuple[str, str], ...]


PLACES = {
    "rubber": ("mold", "rubber"),
    "thickness": ("mold", "thickness"),
    "temperature": ("shop", "temperature"),
    "count": ("edition", "count"),
    "powder": ("cast", "powder"),
}


def asked_now(piece: TakenPiece, units: UnitSystem) -> AskedNow:
    """What a piece's commission asks for.

    Parameters
    ----------
    piece : it.
    units : of who reads.
    """
    order = commission_from_toml(piece.commission)
    return AskedNow(
        rubber=order.mold.rubber,
        rubbers=_sheets("rubber", order.mold.rubber),
        thickness="" if order.mold.coats else show_length(order.mold.thickness_mm, units),
        temperature=show_temperature(order.shop.temperature_c, units),
        count=order.edition.count,
        powder=order.cast.powder,
        powders=_sheets("powder", order.cast.powder),
    )


def tried_commission(piece: TakenPiece, asked: TrialAsked, units: UnitSystem) -> str:
    """The piece's commission with what is tried.

    Parameters
    ----------
    piece : it.
    asked : what is tried.
    units : of who reads.

    Raises InputRefused ("nothing-changed", and those of a commission).
    """
    now = asked_now(piece, units)
    values = {
        PLACES[name]: value
        for name, value in asked.model_dump(exclude_none=True).items()
        if value not in ("", getattr(now, name))
    }
    if not values:
        raise InputRefused("nothing-changed", "as it is planned", "something else", "", "Change a value, then try it.")
    return changed_commission(piece.commission, values)


def _sheets(kind: str, now: str) -> tuple[tuple[str, str], ...]:
    known = tuple((sheet.id, sheet.name) for sheet in library().all(kind))
    return known if now in dict(known) else ((now, now), *known)
