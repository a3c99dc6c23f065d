"""What the bench sheets print, from a plan: texts only, so that the form decides nothing but places."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict
from itertools import groupby
from typing import Any

from moldwright.plan.plan import Plan
from moldwright.plan.steps import Per, Phase
from moldwright.sheets.before_page import before_page
from moldwright.sheets.cast_log import cast_log
from moldwright.sheets.fill_page import fill_page
from moldwright.sheets.heading import heading
from moldwright.sheets.mix_cards import kinds_of, mix_card
from moldwright.sheets.picture import Pictures, placed
from moldwright.sheets.seam_page import seam_page
from moldwright.sheets.step_texts import Numbered, numbered, step_texts
from moldwright.sheets.walls import walls
from moldwright.sheets.wording import Wording

FRAME_MM = 47.0
"""What head and foot of a sheet take of its height, as the form sets them."""
DRAWINGS_MM = 34.0
"""What the titles and captions of the page of drawings take."""
SEAM = "Four sides of the gloved piece. Heavy line: the seam; numbers: the shell's pieces, 1 off first."
CAST_CARDS = (Phase.SKIN, Phase.BACK_FILL)
"""Phases of a cast whose cups share a card."""


def bench_data(plan: Plan, pictures: Pictures, paper: str, paper_mm: float) -> tuple[dict[str, Any], dict[str, bytes]]:
    """The form's data and its pictures by file name.

    Parameters
    ----------
    plan : the plan.
    pictures : its drawings.
    paper : the paper's name in the form.
    paper_mm : its height [mm].
    """
    files: dict[str, bytes] = {}
    room_mm = paper_mm - FRAME_MM
    shown_mm = room_mm - DRAWINGS_MM
    every = numbered(plan)
    of_cast = [its for its in every if its.step.per is Per.CAST]
    of_mold = [its for its in every if its.step.per is not Per.CAST]
    data = heading(plan, "bench sheets", paper) | {
        "walls": {name: [asdict(layer) for layer in layers] for name, layers in walls(plan).items()},
        "before": before_page(plan),
        "pictures": {
            "apart": placed(pictures.apart, "apart", files),
            "glove": placed(pictures.glove, "glove", files),
            "cut": placed(pictures.cut, "cut", files),
        },
        "room": {"apart": 0.53 * shown_mm, "glove": 0.47 * shown_mm},
        "fill": fill_page(plan, pictures, room_mm, files),
        "seam": seam_page(plan, pictures, (room_mm - 84.0) / 2),
        "seam-views": {"say": SEAM, "views": [placed(p, f"seam-{k}", files) for k, p in enumerate(pictures.seam)]},
        "say": {"apart": _apart(plan.shell_making.by_hand), "cut": "Hatched: original. Solid: rubber. Weave: shell."},
        "mold": _pages(plan, of_mold),
        "cast": _pages(plan, of_cast),
        "log": cast_log(plan),
    }
    return data, files


def _apart(laid: bool) -> str:
    apart = "Pieces are numbered as they come off, straight along their arrows"
    return apart + ("; laid the other way round." if laid else ".")


def _pages(plan: Plan, steps: Iterable[Numbered]) -> list[dict[str, Any]]:
    """Steps that share a page's beginning, in their order, below the cards of what they mix."""
    words = Wording(plan.units, plan.scale_g)
    pages = []
    for _, part in groupby(steps, key=_page_of):
        together = list(part)
        mixes = [plan.mix(id_) for its in together for id_ in its.step.mixes]
        cards = [
            mix_card(plan, for_, [its.number for its in together if for_ in kinds_of(map(plan.mix, its.step.mixes))])
            for for_ in kinds_of(mixes)
        ]
        pages.append({"cards": cards, "steps": [step_texts(plan, words, its) for its in together]})
    return pages


def _page_of(its: Numbered) -> str:
    """Steps with the same answer stand together: a coat's, a shell half's that is mixed, the pouring of a cast."""
    step = its.step
    if step.coat is not None:
        return step.coat
    if step.per is Per.CAST and step.phase in CAST_CARDS:
        return "cast"
    return str(step.phase) if step.mixes else ""
