"""What a row of the shopping list is called."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from moldwright.plan.ids import StepId
from moldwright.plan.mixes import TRACES, MixPart, PartKind
from moldwright.plan.needs import NeedPlan, NeedUnit
from moldwright.sheets.at_hand import runs
from moldwright.sheets.wording import table
from moldwright.units import show_length, show_volume
from moldwright.units.system import UnitSystem
from moldwright.words.speaker import say, with_mark

SIDES = frozenset((PartKind.A, PartKind.B))


def need_name(need: NeedPlan, units: UnitSystem, steps: Sequence[StepId] = ()) -> str:
    """A row's name, with what it must be known by in the shop.

    Parameters
    ----------
    need : the row.
    units : the reader's.
    steps : ids of the plan's steps in their order.
    """
    return ", ".join(filter(None, (_called(need, units), *_known_by(need, units), _people(need, steps))))


def _called(need: NeedPlan, units: UnitSystem) -> str:
    if need.form is not None:
        return f"{say(need.material)}, {_form(need, units)}"
    if need.part is not None and need.part in SIDES:
        return say("{material}, part {part}", material=say(need.material), part=_lettered(need.part, need.called))
    if need.part in TRACES:
        return f"{say(need.part)}, {say(need.color or '')}"
    return say(need.material or table()["need"][need.id])


def _form(need: NeedPlan, units: UnitSystem) -> str:
    said = say(table()["form"][need.form])
    if need.roll_mm is None:
        return said
    width, length = (show_length(side, units) for side in need.roll_mm)
    return f"{said} {say(table()['besides']['roll'], width=width, length=length)}"


def _known_by(need: NeedPlan, units: UnitSystem) -> Iterable[str]:
    """Size of a syringe as it is marked, size and use of a cup, that a volume is loose, that a spare is counted in."""
    beside = table()["besides"]
    if need.size_ml is not None and need.cups_for is None:
        yield f"{with_mark(format(need.size_ml, 'g'))} ml"
    if need.size_ml is not None and need.cups_for is not None:
        yield show_volume(need.size_ml, units)
        use = beside["cups"][need.cups_for]
        yield say(use)
    if need.part is PartKind.POWDER and need.unit is NeedUnit.MILLILITER:
        loose = beside["loose"]
        yield say(loose)
    if need.spare:
        spare = beside["spare"]
        yield say(spare)


def _people(need: NeedPlan, steps: Sequence[StepId]) -> str:
    """For how many it is bought, where it is for more than one."""
    beside = table()["besides"]["people"]
    numbers = [steps.index(id_) + 1 for id_ in need.together]
    if need.people == 1:
        return ""
    said = beside["all"] if not numbers else beside["step" if len(numbers) == 1 else "steps"]
    return say(said, people=need.people, steps=runs(numbers))


def part_name(part: MixPart) -> str:
    """What a part of a cup is called on the sheet.

    Parameters
    ----------
    part : one part of a mix.
    """
    if part.kind in SIDES:
        return _lettered(part.kind, part.name)
    return f"{say(part.kind)}, {say(part.name)}" if part.kind in TRACES else say(part.name)


def _lettered(side: PartKind, called: str) -> str:
    """A part by its letter, with the word of the trade where there is one.

    >>> _lettered(PartKind.B, "hardener"), _lettered(PartKind.B, "B")
    ('B hardener', 'B')
    """
    return " ".join(dict.fromkeys((side, say(called))))
