"""The data's steps spread over this job: one draft for each coat and fill, with its words and quantities."""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import groupby

from moldwright.steps.context import StepContext
from moldwright.steps.flags import flags, holds
from moldwright.steps.sheet import StepSheet, step_sheets
from moldwright.steps.values import StepValues, coat_values, fill_values, job_values


@dataclass(frozen=True)
class Draft:
    """One step of this job before it is written out. `stands`: its condition holds here."""

    id: str
    sheet: StepSheet
    words: frozenset[str]
    values: StepValues
    mixes: tuple[int, ...]

    @property
    def stands(self) -> bool:
        return holds(self.sheet.when, self.words)


def drafts(context: StepContext) -> tuple[Draft, ...]:
    """Every step in the order of the work, those whose condition fails here included.

    Parameters
    ----------
    context : the order, the materials and the quantities.
    """
    words, values = flags(context), job_values(context)
    made: list[Draft] = []
    for repeated, sheets in groupby(step_sheets(), key=lambda sheet: sheet.each != ""):
        if repeated:
            made += _coats(tuple(sheets), context, words)
        else:
            made += [Draft(s.id, s, words, values, context.mixes_for(s.mixes) if s.mixes else ()) for s in sheets]
    return tuple(made)


def slug(name: str) -> str:
    """A coat's name as part of a step's id.

    Parameters
    ----------
    name : the coat's name.

    >>> slug("Detail coat, 1st")
    'detail-coat-1st'
    """
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-") or "unnamed"


def _coats(sheets: tuple[StepSheet, ...], context: StepContext, words: frozenset[str]) -> list[Draft]:
    made: list[Draft] = []
    for place in range(len(context.coats)):
        here = words | _coat_words(context, place)
        values = coat_values(context, place)
        for sheet in sheets:
            if sheet.each == "fill":
                made += _fill(sheet, context, place, here, any(draft.sheet.each == "fill" for draft in made))
            else:
                made.append(_coat(sheet, context, place, here, values))
    return made


def _coat(sheet: StepSheet, context: StepContext, place: int, words: frozenset[str], values: StepValues) -> Draft:
    name = context.coats[place].name
    mixes = context.mixes_for(name) if sheet.mixes else ()
    return Draft(sheet.id.replace("coat-*", f"coat-{slug(name)}"), sheet, words, values, mixes)


def _fill(sheet: StepSheet, context: StepContext, place: int, words: frozenset[str], again: bool) -> list[Draft]:
    """The fill after this coat, if any; the first is called `fill`, a later one `fill-after-<coat>`."""
    coat, last = context.coats[place], place == len(context.coats) - 1
    spots = tuple(spot for spot in context.spots if spot.after_coat == coat.name)
    if not spots and not (last and not again and context.fill.net_g > 0.0):
        return []
    values = fill_values(context, coat, spots)
    id_ = f"fill-after-{slug(coat.name)}" if again else "fill"
    return [Draft(id_, sheet, words, values, () if again else context.mixes_for("fill"))]


def _coat_words(context: StepContext, place: int) -> frozenset[str]:
    coat = context.coats[place]
    words = {
        f"coat-{coat.gesture}": True,
        "first-coat": place == 0,
        "last-coat": place == len(context.coats) - 1,
        "several-cups": len(context.mixes_for(coat.name)) > 1,
    }
    return frozenset(word for word, holds_here in words.items() if holds_here)
