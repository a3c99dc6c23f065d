"""What to wear, summed from the cautions that stand: list and steps cannot disagree."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from enum import Enum, auto

from moldwright.materials import Library
from moldwright.materials.gear import Gear
from moldwright.plan.cautions import Caution
from moldwright.plan.needs import NeedGroup, NeedPlan
from moldwright.plan.steps import EACH_CAST, Per, StepPlan
from moldwright.quantities.need_rows import consumed


class Worn(Enum):
    """How often somebody takes a new one."""

    ONCE = auto()
    """One for each person."""
    DAY = auto()
    """One for the mold, one for each cast."""
    PHASE = auto()
    """One for each phase of the work in which a step asks for it, each coat by itself."""


BOUGHT = {
    Gear.GLOVES: (("vinyl-gloves", Worn.PHASE),),
    Gear.SOLVENT_GLOVES: (("solvent-gloves", Worn.DAY),),
    Gear.CUT_GLOVE: (("cut-glove", Worn.ONCE),),
    Gear.GOGGLES: (("goggles", Worn.ONCE),),
    Gear.EARS: (("ear-protection", Worn.ONCE),),
    Gear.DUST_MASK: (("dust-mask", Worn.DAY),),
    Gear.DUST_RESPIRATOR: (("dust-respirator", Worn.DAY),),
    Gear.VAPOR_RESPIRATOR: (("half-mask", Worn.ONCE), ("vapor-cartridge", Worn.DAY)),
}
"""The consumables that each is bought as, and how often: common practice, no source."""


def gear_needs(
    steps: Sequence[StepPlan], cautions: Iterable[Caution], people: int, casts: int, library: Library
) -> tuple[NeedPlan, ...]:
    """What the steps ask to wear, as rows of the list.

    Parameters
    ----------
    steps : those that stand.
    cautions : those on them.
    people : how many pairs of hands; a step may take more.
    casts : how often the steps of a cast are done.
    library : the sheets of what is worn.

    Source: the cautions; how often something is changed is common practice, no source.
    """
    asked = {(each.step, gear) for each in cautions for gear in each.gear}
    by_gear = {gear: [step for step in steps if (step.id, gear) in asked] for gear in Gear}
    return tuple(
        _for_people(consumed(sheet, sheet.rate_per_use.range * times, NeedGroup.PROTECTION), wearing, people)
        for gear, wearing in by_gear.items()
        if wearing
        for id_, worn in BOUGHT[gear]
        for sheet, times in ((library.consumable(id_), _times(worn, wearing, people, casts)),)
    )


def _for_people(need: NeedPlan, wearing: Sequence[StepPlan], people: int) -> NeedPlan:
    """For how many it is, and at which steps, where the shop has fewer than those take."""
    together = tuple(step.id for step in wearing if step.people > people)
    return replace(need, people=max(people, *(step.people for step in wearing)), together=together)


def _times(worn: Worn, steps: Sequence[StepPlan], people: int, casts: int) -> int:
    """How many are worn: by all who work in each place of the work, as many as its steps take."""
    places: dict[tuple[object, ...], int] = {}
    for step in steps:
        per = Per.CAST if step.per in EACH_CAST else step.per
        place = {Worn.ONCE: (), Worn.DAY: (per,), Worn.PHASE: (per, step.phase, step.coat)}[worn]
        places[place] = max(places.get(place, people), step.people)
    return sum(count * (casts if Per.CAST in place else 1) for place, count in places.items())
