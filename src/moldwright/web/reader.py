"""Who reads a page: as whom, in which language, units and look."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import Request
from starlette.requests import HTTPConnection

from moldwright.units.system import UnitSystem
from moldwright.web.doors.visitor import Visitor
from moldwright.web.words.said import languages, wanted_of
from moldwright.words.speaker import ENGLISH

LOOKS = ("light", "dark", "contrast")
"""What a reader may choose; none: as the device is set."""


@dataclass(frozen=True, slots=True)
class DeskReader:
    """Who reads."""

    visitor: Visitor | None
    language: str = ENGLISH.language
    units: UnitSystem = UnitSystem.METRIC
    look: str = ""


def language_of(call: HTTPConnection) -> str:
    """The language that a device was set to, else the first that its browser asks for.

    Parameters
    ----------
    call : any.
    """
    chosen, known = call.cookies.get("language", ""), languages()
    return chosen if chosen in known else wanted_of(call.headers.get("accept-language", ""), known)


def units_of(call: HTTPConnection) -> UnitSystem:
    """The units that a device was set to.

    Parameters
    ----------
    call : any.
    """
    units = call.cookies.get("units", "")
    return UnitSystem(units) if units in list(UnitSystem) else UnitSystem.METRIC


def reader_of(request: Request) -> DeskReader:
    """Who reads, by the device's cookies; nothing in them is trusted further than to choose between what there is.

    Parameters
    ----------
    request : any.
    """
    look = request.cookies.get("look", "")
    return DeskReader(
        getattr(request.state, "visitor", None),
        language_of(request),
        units_of(request),
        look if look in LOOKS else "",
    )
