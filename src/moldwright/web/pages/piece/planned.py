"""A piece's plan as its page shows it: what the sheets say, in the reader's units."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from moldwright.errors import MoldwrightError
from moldwright.log.ids import PlanId
from moldwright.making.plan_folders import plan_home
from moldwright.plan.lines import Line
from moldwright.plan.original import HoleTreat
from moldwright.plan.plan import Plan
from moldwright.records.shop import Shop
from moldwright.sheets.before_page import before_page
from moldwright.sheets.figures import ToldFigure, figures
from moldwright.sheets.photo_told import ask_line, photo_line
from moldwright.sheets.repair_words import repair_text
from moldwright.sheets.shopping_data import assumed_rows
from moldwright.sheets.wording import Wording
from moldwright.units import show_length
from moldwright.units.system import UnitSystem
from moldwright.web.pages.piece.papers import PICTURES, SheetPapers, SolidFile, names_in, sheets_in, solids_in
from moldwright.web.settings import Settings
from moldwright.web.words.asked import CALLED
from moldwright.web.words.marked import Words

TREATS = {HoleTreat.DIVIDER: Line("shape.divider"), HoleTreat.STOP: Line("shape.stop")}


@dataclass(frozen=True, slots=True)
class ShownFigure:
    """A figure, and what was taken for granted for it: name, value and source of each."""

    told: ToldFigure
    rests: tuple[tuple[Words | str, str, str], ...]


@dataclass(frozen=True, slots=True)
class ShownPlan:
    """A plan on its page.

    Parameters
    ----------
    id : of the plan.
    plan : in the reader's units.
    before : what its first sheet prints: warnings, totals.
    figures : each with where it comes from, and what was taken for granted for it.
    assumed : key, value and source of what nobody gave.
    told : of the original: repairs, holes, photos, what is still asked; a line each.
    sheets, solids, pictures : files of its folder; none where that is not on this machine.
    """

    id: PlanId
    plan: Plan
    before: dict[str, Any]
    figures: tuple[ShownFigure, ...]
    assumed: list[list[str]]
    told: tuple[str, ...]
    sheets: tuple[SheetPapers, ...]
    solids: tuple[SolidFile, ...]
    pictures: list[str]

    @property
    def here(self) -> bool:
        """Whether its folder is on this machine."""
        return bool(self.sheets)


def shown_plan(shop: Shop, settings: Settings, id_: PlanId, units: UnitSystem) -> ShownPlan | MoldwrightError:
    """A plan, or why it cannot be read.

    Parameters
    ----------
    shop : the records.
    settings : where plans' folders are.
    id_ : of the plan.
    units : of who reads.
    """
    try:
        plan = replace(shop.plan(id_), units=units)
    except MoldwrightError as refused:
        return refused
    folder = plan_home(settings.data, id_)
    return ShownPlan(
        id=id_,
        plan=plan,
        before=before_page(plan),
        figures=tuple(_figures(plan, units)),
        assumed=assumed_rows(plan.assumed, units),
        told=tuple(_told(plan, units)),
        sheets=sheets_in(folder),
        solids=solids_in(folder),
        pictures=names_in(folder, PICTURES),
    )


def _figures(plan: Plan, units: UnitSystem) -> Iterator[ShownFigure]:
    for told in (row for column in figures(plan) for row in column):
        rests = [each for each in plan.assumed if each.key in told.rests]
        yield ShownFigure(told, tuple(_granted(row) for row in assumed_rows(rests, units)))


def _granted(row: Sequence[str]) -> tuple[Words | str, str, str]:
    """A value that was taken for granted: what it is called, itself, its source."""
    key, value, source = row
    return CALLED.get(key, key), value, source


def _told(plan: Plan, units: UnitSystem) -> list[str]:
    original, wording = plan.original, Wording(units, plan.scale_g)
    return [
        *(repair_text(each) for each in original.repairs),
        *(
            f"{each.letter}: {show_length(each.width_mm, units)}. {wording.line(TREATS[each.treat])}"
            for each in original.holes
        ),
        *(ask_line(each) for each in original.asks),
        *(photo_line(each) for each in original.photos if not each.used),
    ]
