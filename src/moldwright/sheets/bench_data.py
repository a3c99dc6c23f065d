"""What the bench sheets print, from a plan: texts only, so that the form decides nothing but places."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from functools import partial
from typing import Any

from moldwright.plan.plan import Plan
from moldwright.plan.steps import Per
from moldwright.sheets.before_page import before_page
from moldwright.sheets.cast_log import cast_log
from moldwright.sheets.fill_page import fill_page
from moldwright.sheets.heading import FRAME_MM, heading
from moldwright.sheets.map_page import ShownMap, map_pages
from moldwright.sheets.mix_cards import mix_card
from moldwright.sheets.picture import Pictures, placed
from moldwright.sheets.step_texts import numbered, step_texts
from moldwright.sheets.walls import walls
from moldwright.sheets.wording import Wording
from moldwright.sheets.work_pages import WorkPages

DRAWINGS_MM = 34.0
"""What the titles and captions of the page of drawings take."""


def bench_data(
    plan: Plan, pictures: Pictures, maps: Sequence[ShownMap], paper: str, paper_mm: float
) -> tuple[dict[str, Any], dict[str, bytes]]:
    """The form's data and its pictures by file name.

    Parameters
    ----------
    plan : the plan.
    pictures : its drawings.
    maps : what is told of its surfaces.
    paper : the paper's name in the form.
    paper_mm : its height [mm].
    """
    files: dict[str, bytes] = {}
    room_mm = paper_mm - FRAME_MM
    shown_mm = room_mm - DRAWINGS_MM
    every = numbered(plan)
    pages = WorkPages(plan, partial(step_texts, plan, Wording(plan.units, plan.scale_g)), partial(mix_card, plan))
    data = heading(plan, "bench sheets", paper) | {
        "walls": walls_data(plan),
        "before": before_page(plan) | {"maps": _titles(maps)},
        "pictures": {
            "apart": placed(pictures.apart, "apart", files),
            "glove": placed(pictures.glove, "glove", files),
            "cut": placed(pictures.cut, "cut", files),
        },
        "room": {"apart": 0.53 * shown_mm, "glove": 0.47 * shown_mm},
        "fill": fill_page(plan, pictures, room_mm, files),
        "maps": map_pages(maps, room_mm, files),
        "say": {"apart": _apart(plan.shell_making.by_hand), "cut": "Hatched: original. Solid: rubber. Weave: shell."},
        "mold": pages.of_mold(its for its in every if its.step.per is not Per.CAST),
        "cast": pages.of_cast([its for its in every if its.step.per is Per.CAST]),
        "log": cast_log(plan),
    }
    return data, files


def walls_data(plan: Plan) -> dict[str, list[dict[str, Any]]]:
    """The layers of every wall, as the form draws them.

    Parameters
    ----------
    plan : the plan.
    """
    return {name: [asdict(layer) for layer in layers] for name, layers in walls(plan).items()}


def _titles(maps: Sequence[ShownMap]) -> str:
    """What the maps are of.

    >>> _titles([])
    ''
    """
    titles = [each.title.lower() for each in maps]
    last = [" and ".join(titles[-2:])] if titles else []
    return ", ".join((*titles[:-2], *last)).capitalize()


def _apart(laid: bool) -> str:
    apart = "Pieces are numbered as they come off, straight along their arrows"
    return apart + ("; laid the other way round." if laid else ".") + " Under the glove: the original that it leaves."
