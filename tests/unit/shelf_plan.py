"""A small plan with a list by hand, for tests of the shelf."""

from __future__ import annotations

from dataclasses import replace

from job_plan_sample import sample_plan
from lots_by_hand import BASE

from moldwright.log.lot_events import Stuff
from moldwright.plan.ids import MixId
from moldwright.plan.mixes import SKIN, MeasuredBy, MixFor, MixKind, MixPart, MixPlan, PartKind
from moldwright.plan.needs import NeedGroup, NeedPlan, NeedUnit
from moldwright.plan.plan import Plan
from moldwright.ranges import Range

RESIN = Stuff("resin", "urethane-standard-a", "standard casting urethane, part A")


def need(stuff: Stuff, likely: float, group: NeedGroup, unit: NeedUnit = NeedUnit.GRAM) -> NeedPlan:
    return NeedPlan(stuff.kind, stuff.id, stuff.name, Range(0.9 * likely, likely, 1.2 * likely), unit, group)


def cup(id_: str, for_: MixFor, stuff: Stuff, grams: float) -> MixPlan:
    part = MixPart(PartKind.A, "A", grams, grams / 1.25, grams, MeasuredBy.SCALE, grams, stuff=stuff.key)
    return MixPlan(MixId(id_), for_, 1, (part,), (), None, 1.0, 1.0)


def plan() -> Plan:
    """Four casts: 400 g of rubber a mold, 800 g of resin, 8 cups, and 2 rolls for the shell."""
    needs = (
        need(BASE, 400.0, NeedGroup.RUBBER),
        need(RESIN, 800.0, NeedGroup.CASTING),
        need(Stuff("consumable", "cup"), 8.0, NeedGroup.CASTING, NeedUnit.EACH),
        need(Stuff("shell", "plaster-bandage"), 2.0, NeedGroup.SHELL, NeedUnit.EACH),
    )
    mixes = (
        cup("coat-1.cup-1", MixFor(MixKind.COAT), BASE, 300.0),
        cup("skin.cup-1", SKIN, RESIN, 180.0),
    )
    return replace(sample_plan(), needs=needs, mixes=mixes, count=4)
