"""What was found or mended on the scan, in words."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib import resources

from moldwright.scan.repairs import Repair
from moldwright.words.speaker import say, with_mark


def repair_text(repair: Repair) -> str:
    """One thing that was found or mended, with its size.

    Parameters
    ----------
    repair : its code, size and count.

    >>> from moldwright.scan.repairs import RepairCode
    >>> repair_text(Repair(RepairCode.HOLE_CLOSED, 35.0, "mm", 3))
    'hole in the scan closed, edge length: 35 mm in 3 places'
    """
    places = say(" in {places} places", places=repair.count) if repair.count > 1 else ""
    return f"{say(_words()[repair.code])}: {with_mark(format(repair.size, 'g'))} {repair.unit}{places}"


@cache
def _words() -> dict[str, str]:
    words: dict[str, str] = tomllib.loads(
        resources.files("moldwright.sheets").joinpath("repairs.toml").read_text("utf-8")
    )
    return words
