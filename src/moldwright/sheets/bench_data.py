"""What the bench sheets print, from a plan: texts only, so that the form decides nothing but places."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict
from itertools import groupby, pairwise
from typing import Any

from moldwright.plan.plan import Plan
from moldwright.plan.steps import Per
from moldwright.sheets.before_page import before_page
from moldwright.sheets.cast_log import cast_log
from moldwright.sheets.fill_page import fill_page
from moldwright.sheets.heading import FRAME_MM, heading
from moldwright.sheets.mix_cards import kinds_of, mix_card
from moldwright.sheets.picture import Pictures, placed
from moldwright.sheets.step_texts import Numbered, numbered, step_texts
from moldwright.sheets.walls import walls
from moldwright.sheets.wording import Wording, table

DRAWINGS_MM = 34.0
"""What the titles and captions of the page of drawings take."""


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
        "say": {"apart": _apart(plan.shell_making.by_hand), "cut": "Hatched: original. Solid: rubber. Weave: shell."},
        "mold": _pages(plan, of_mold),
        "cast": _cast_pages(plan, of_cast),
        "log": cast_log(plan),
    }
    return data, files


def _apart(laid: bool) -> str:
    apart = "Pieces are numbered as they come off, straight along their arrows"
    return apart + ("; laid the other way round." if laid else ".")


def _pages(plan: Plan, steps: Iterable[Numbered]) -> list[dict[str, Any]]:
    """The mold's steps that share a page's beginning, in their order, below the cards of what they mix."""
    return [_page(plan, list(part), {}) for _, part in groupby(steps, key=_page_of)]


def _page_of(its: Numbered) -> str:
    """Steps with the same answer stand together: a coat's, a shell half's that is mixed."""
    step = its.step
    if step.coat is not None:
        return step.coat
    return str(step.phase) if step.mixes else ""


def _cast_pages(plan: Plan, steps: Sequence[Numbered]) -> list[dict[str, Any]]:
    """All steps that mix nothing; then a sheet of the cast's cards with the steps that mix them, to laminate, to which
    the others send where its turn comes."""
    mixed, others = [its for its in steps if its.step.mixes], [its for its in steps if not its.step.mixes]
    elsewhere = {its.number: "cards" for its in mixed}
    rounds = [_page(plan, others, elsewhere)] if others else []
    return [*rounds, _among(_page(plan, mixed, {}, sends=False), others, mixed)] if mixed else rounds


def _among(page: dict[str, Any], others: Sequence[Numbered], mixed: Sequence[Numbered]) -> dict[str, Any]:
    """The page of the cards between the steps before and after it."""
    before = [its.number for its in others if its.number < mixed[0].number][-1:]
    after = [its.number for its in others if its.number > mixed[-1].number][:1]
    first = [_pointer("first", before)] if before else []
    return page | {"steps": [*first, *page["steps"], *([_pointer("cast", after)] if after else [])]}


def _page(plan: Plan, together: Sequence[Numbered], elsewhere: Mapping[int, str], sends: bool = True) -> dict[str, Any]:
    words = Wording(plan.units, plan.scale_g)
    mixes = [plan.mix(id_) for its in together for id_ in its.step.mixes]
    kinds = kinds_of(mixes)
    cards = [
        mix_card(plan, for_, [its.number for its in together if for_ in kinds_of(map(plan.mix, its.step.mixes))], above)
        for above, for_ in zip((None, *kinds), kinds, strict=False)
    ]
    told: list[dict[str, Any]] = []
    for its, following in pairwise([*together, None]):
        if its is None:
            continue
        told.append(step_texts(plan, words, its))
        last = len(plan.steps) if following is None else following.number - 1
        if sends and (following is not None or its.step.per is Per.CAST):
            told += _pointers(plan, range(its.number + 1, last + 1), elsewhere)
    return {"cards": cards, "steps": told}


def _pointers(plan: Plan, missing: Iterable[int], elsewhere: Mapping[int, str]) -> list[dict[str, Any]]:
    """Where the steps are told that come next and stand on other sheets."""
    of = {k: elsewhere.get(k, "cast" if plan.steps[k - 1].per is Per.CAST else "mold") for k in missing}
    runs = [(where, [k for k, _ in run]) for where, run in groupby(of.items(), key=lambda row: row[1])]
    return [_pointer(where, run) for where, run in runs]


def _pointer(where: str, run: Sequence[int]) -> dict[str, Any]:
    """Where to go on: the form adds the number of the sheet."""
    return {"pointer": table()["card"][where].format(steps=_numbers(run)), "to": run[0]}


def _numbers(run: Sequence[int]) -> str:
    """Numbers of steps as they are told.

    >>> _numbers([40]), _numbers([35, 36, 37])
    ('step 40', 'steps 35 to 37')
    """
    return f"step {run[0]}" if len(run) == 1 else f"steps {run[0]} to {run[-1]}"
