"""What an address asks of the labels: which things, in their order, and how they are printed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Annotated

from fastapi import Depends, Query

from moldwright.errors import InputRefused, MoldwrightError
from moldwright.records.shop import Shop
from moldwright.sheets.label_text import LabelText
from moldwright.text.shown import short
from moldwright.told.label_print import SheetTold
from moldwright.told.label_things import LABELED, label_of

MOST_THINGS = 400
Text = Annotated[str, Query(max_length=60)]


@dataclass(frozen=True, slots=True)
class LabelThing:
    """What is to be labeled, as the address tells it, and its label; `refused`: why it has none."""

    asked: str
    label: LabelText | None
    refused: MoldwrightError | None = None


def _sheet(
    sheet: Text = "", single: Text = "", grid: Text = "", size: Text = "", gap: Text = "0x0", margin: Text = "",
    paper: Text = "a4", start: int = 1, shift_x: Text = "", shift_y: Text = "", outlines: bool = False,
) -> SheetTold:  # fmt: skip
    return SheetTold(sheet, single, grid, size, gap, margin, paper, start, shift_x, shift_y, outlines)


SheetAsked = Annotated[SheetTold, Depends(_sheet)]
"""Sheet and printer, as `moldwright label` takes them."""
Things = Annotated[
    list[str],
    Query(max_length=MOST_THINGS, description='In their order: "lot:CODE", "mold:CODE", "piece:CODE", "cup:RUN:CUP".'),
]


def labels_of(shop: Shop, things: Iterable[str]) -> list[LabelText]:
    """The labels of some things.

    Parameters
    ----------
    shop : the store.
    things : as the address tells them.

    Raises InputRefused, RecordConflict where one has no label.
    """
    return [_label(shop, thing) for thing in things if thing]


def things_told(shop: Shop, things: Iterable[str]) -> list[LabelThing]:
    """Some things with their labels, or why one has none.

    Parameters
    ----------
    shop : the store.
    things : as the address tells them.
    """
    return [_told(shop, thing) for thing in things if thing]


def _told(shop: Shop, thing: str) -> LabelThing:
    try:
        return LabelThing(thing, _label(shop, thing))
    except MoldwrightError as refused:
        return LabelThing(thing, None, refused)


def _label(shop: Shop, thing: str) -> LabelText:
    kind, *written = thing.split(":", 2 if thing.startswith("cup:") else 1)
    if LABELED.get(kind) != len(written):
        remedy = "Name it so: lot:CODE, mold:CODE, piece:CODE, cup:RUN:CUP."
        raise InputRefused("label-unclear", short(thing), "a lot, a mold, a piece or a cup", "", remedy)
    return label_of(shop, kind, tuple(written))
