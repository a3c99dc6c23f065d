"""What a remedy leads to, as a value: something that is done, or a change of what is asked for.

Whoever shows it words it: a command line as a command, a page as a field or as a link.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from typing import Any


class Deed(Enum):
    """Something that a person does or looks up."""

    SEE_MATERIALS = 1
    SEE_PIECES = 2
    SEE_RUNS = 3
    SEE_LOTS = 4
    SEE_MOLDS = 5
    SEE_EDITIONS = 6
    SEE_NUMBERS = 7
    SEE_RECIPES = 8
    SEE_LABEL_SHEETS = 9
    SEE_RUN_LOG = 10
    SEE_PIECE_LOG = 11
    SEE_LOT_LOG = 12
    SEE_MOLD_LOG = 13
    SEE_EDITION_LOG = 14
    SEE_RECIPE_LOG = 15
    ADD_LOT = 16
    KEEP_RECIPE = 17
    CHANGE_PIECE = 18
    BEGIN_RUN = 19
    END_RUN = 20
    GIVE_NUMBER = 21
    VOID_NUMBER = 22
    BRING_BACK = 23
    CHECK_SHOP = 24
    LOOK_AT_PHOTOS = 25
    PRINT_PHOTO_SHEET = 26


@dataclass(frozen=True, slots=True)
class Change:
    """A key of the commission, and the value that it may have instead; "": whoever asks chooses it."""

    key: str
    to: str | int = ""


Way = Deed | Change


def way_tree(way: Way | None) -> dict[str, Any] | None:
    """A way as plain values.

    Parameters
    ----------
    way : it.

    >>> way_tree(Change("mold.flange", "12 mm")), way_tree(Deed.ADD_LOT)
    ({'key': 'mold.flange', 'to': '12 mm'}, {'deed': 'ADD_LOT'})
    """
    match way:
        case Deed():
            return {"deed": way.name}
        case Change(key, to):
            return {"key": key, "to": to}
        case None:
            return None


def way_of(tree: Mapping[str, Any] | None) -> Way | None:
    """A way from plain values.

    Parameters
    ----------
    tree : as `way_tree` made it.

    >>> way_of({"deed": "ADD_LOT"})
    <Deed.ADD_LOT: 16>
    """
    if not tree:
        return None
    return Deed[tree["deed"]] if "deed" in tree else Change(tree["key"], tree["to"])
