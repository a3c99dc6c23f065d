"""Who reads a page: as whom, in which language, units and look."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import Request

from moldwright.units.system import UnitSystem
from moldwright.web.doors.visitor import Visitor
from moldwright.web.words.said import ENGLISH, languages, wanted_of

LOOKS = ("light", "dark", "contrast")
"""What a reader may choose; none: as the device is set."""


@dataclass(frozen=True, slots=True)
class DeskReader:
    """Who reads."""

    visitor: Visitor | None
    language: str = ENGLISH
    units: UnitSystem = UnitSystem.METRIC
    look: str = ""


def reader_of(request: Request) -> DeskReader:
    """Who reads, by the device's cookies; nothing in them is trusted further than to choose between what there is.

    Parameters
    ----------
    request : any.
    """
    cookies, known = request.cookies, languages()
    language = cookies.get("language", "")
    units, look = cookies.get("units", ""), cookies.get("look", "")
    return DeskReader(
        getattr(request.state, "visitor", None),
        language if language in known else wanted_of(request.headers.get("accept-language", ""), known),
        UnitSystem(units) if units in list(UnitSystem) else UnitSystem.METRIC,
        look if look in LOOKS else "",
    )
