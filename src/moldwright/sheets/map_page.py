"""Maps of the glove as the bench sheets print them: a surface's views, its numbered leaves, where it is least and most.

Whatever is told of a surface is printed so; nothing here knows which length it is.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from moldwright.sheets.picture import Picture, placed

VIEW_MM = 42.0
"""Greatest width of a view; four stand side by side."""
WORDS_MM = 64.0
"""What a map takes beside its views: title, words, the views' names, leaves, places [mm]."""
LEAST_TALL_MM, ON_A_PAGE = 30.0, 2


@dataclass(frozen=True, slots=True)
class ShownLeaf:
    """A leaf of a legend: its color, its limits without a unit, the share of the surface in it."""

    color: str
    limits: str
    share: str


@dataclass(frozen=True, slots=True)
class ShownMap:
    """A map in words, with its pictures.

    Parameters
    ----------
    name : of its files.
    title, told : what it is of, and what it tells.
    at_bench : what a hand does by it.
    leaves, unit : of its legend.
    least, most : where it is least and most, with how much; "" where many places are.
    views : its pictures.
    """

    name: str
    title: str
    told: str
    at_bench: str
    leaves: tuple[ShownLeaf, ...]
    unit: str
    least: str
    most: str
    views: tuple[Picture, ...]


def map_pages(maps: Sequence[ShownMap], room_mm: float, files: dict[str, bytes]) -> list[list[dict[str, Any]]]:
    """The maps as the form prints them, those of a page together.

    Parameters
    ----------
    maps : all that are shown.
    room_mm : height of a page between head and foot [mm].
    files : where the pictures' bytes are put.
    """
    tall_mm = max(LEAST_TALL_MM, room_mm / ON_A_PAGE - WORDS_MM)
    pages = [maps[at : at + ON_A_PAGE] for at in range(0, len(maps), ON_A_PAGE)]
    return [[_map(each, tall_mm, files) for each in page] for page in pages]


def _map(shown: ShownMap, tall_mm: float, files: dict[str, bytes]) -> dict[str, Any]:
    views = [placed(view, f"map-{shown.name}-{k}", files) for k, view in enumerate(shown.views)]
    first = shown.views[0]
    return {
        "title": shown.title,
        "told": shown.told,
        "at_bench": shown.at_bench,
        "unit": shown.unit,
        "leaves": [[leaf.color, leaf.limits, leaf.share] for leaf in shown.leaves],
        "least": shown.least,
        "most": shown.most,
        "wide_mm": min(VIEW_MM, tall_mm * first.width_mm / first.height_mm),
        "views": [view | {"alt": f"{shown.title}: {view['name']}"} for view in views],
    }
