"""What is wrong with what was answered, and what can ruin the job, told while one writes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from moldwright.commission.orders import Commission, OriginalOrder
from moldwright.commission.reading import SOURCES, commission_from_toml
from moldwright.commission.values import value_of
from moldwright.errors import InputRefused, MoldwrightError
from moldwright.job.ahead import foretold
from moldwright.job.rough import rough_known
from moldwright.making.inputs import read_sheets
from moldwright.making.original import has_form
from moldwright.materials.library import library
from moldwright.original.evidence.only_volume import OnlyVolume, only_volume
from moldwright.plan.original import Source
from moldwright.ranges import Range
from moldwright.sheets.wording import Wording
from moldwright.units import show_range
from moldwright.units.system import UnitSystem
from moldwright.web.pages.take_in.answers import text_of
from moldwright.web.pages.take_in.draft import TakingIn
from moldwright.web.pages.take_in.fields import key_of
from moldwright.web.pages.take_in.tape import tape_looked

MEASURED = ("tape", "height_mm", "displaced_ml", "weight_g", "density_g_ml", "solid", "material", "gaps")
TELLS = frozenset(f"original.{name}" for name in SOURCES)


@dataclass(frozen=True, slots=True)
class WrongAnswer:
    """A refusal, and the key of which answer it is, "" where it is of several."""

    key: str
    error: MoldwrightError


@dataclass(frozen=True, slots=True)
class CheckedAnswers:
    """What would be refused, what can ruin the job (severity and text), and the rubber in words."""

    wrong: tuple[WrongAnswer, ...]
    cautions: tuple[tuple[str, str], ...]
    rubber: str


def check(draft: TakingIn, answers: Mapping[str, Any], look: Mapping[str, Any], units: UnitSystem) -> CheckedAnswers:
    """Check what was answered.

    Parameters
    ----------
    draft : what is being taken in, for its own sheets.
    answers : by dotted key, as a commission holds them.
    look : what the last look found, empty where there was none.
    units : of who reads.
    """
    wrong = [each for dotted, value in answers.items() if (each := _wrong(dotted, value)) is not None]
    if not wrong and not TELLS & set(answers):
        limit, remedy = "a scan, photos, a tape, water or a weight", "Drop a scan or photos, or measure it."
        wrong = [WrongAnswer("", InputRefused("original-untold", "nothing tells yet what it is", limit, "", remedy))]
    if wrong:
        return CheckedAnswers(tuple(wrong), (), "")
    try:
        order = commission_from_toml(text_of(answers))
        known = _known(order, look, units)
        sheets = read_sheets(draft.folder / order.shop.sheets) if order.shop.sheets else {}
        told = foretold(order, library(sheets), _source(order.original), known)
    except MoldwrightError as refused:
        return CheckedAnswers((WrongAnswer("", refused),), (), "")
    words = Wording(units, order.shop.scale_g)
    cautions = tuple((each.severity.value, words.caution(each)) for each in told.cautions)
    rubber = show_range(told.rubber_g, "mass", units, order.shop.scale_g) if told.rubber_g is not None else ""
    return CheckedAnswers((), cautions, rubber)


def _wrong(dotted: str, value: Any) -> WrongAnswer | None:
    if dotted.startswith("prices."):
        return None
    try:
        value_of(key_of(dotted), value)
    except InputRefused as refused:
        return WrongAnswer(dotted, refused)
    return None


def _known(order: Commission, look: Mapping[str, Any], units: UnitSystem) -> OnlyVolume | None:
    """Volume and height by the last look, else by tape, else by water and weight; None where none tells them."""
    original = order.original
    if original.file or original.photos:
        return _looked(look)
    if has_form(original):
        found, _ = tape_looked(_measured(original), units)
        return OnlyVolume(found.together_ml, found.area_cm2, Range.exactly(found.height_mm))
    return rough_known(original)[0]


def _measured(original: OriginalOrder) -> OriginalOrder:
    """Nothing but what tells its volume, so that a look at the same tape is the same."""
    return replace(OriginalOrder(), **{name: getattr(original, name) for name in MEASURED})


def _looked(look: Mapping[str, Any]) -> OnlyVolume | None:
    if not look:
        return None
    volume = look["volume_ml"]
    told = Range(**volume) if isinstance(volume, dict) else Range.exactly(float(volume))
    return only_volume(told, float(look["size_mm"][2]))


def _source(original: OriginalOrder) -> Source:
    if original.file:
        return Source.SCAN
    if original.photos:
        return Source.PHOTOS
    return Source.TAPE if original.tape is not None else Source.WATER
