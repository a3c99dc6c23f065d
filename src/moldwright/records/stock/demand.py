"""What plans and open runs still need, by material: rows of the plans' lists, less what is weighed already."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import ceil

from moldwright.bench.frame import RunFrame, bodies, frame_of_standing
from moldwright.log.event import Event
from moldwright.log.ids import RunId
from moldwright.log.run_events import CastMeasured, Gelled, Weighed
from moldwright.log.standing import standing
from moldwright.plan.mixes import CAST_KINDS, RUBBER_KINDS, MixKind, MixPlan, StuffKey
from moldwright.plan.needs import NeedGroup, NeedPlan, NeedUnit
from moldwright.plan.plan import Plan
from moldwright.ranges import Range
from moldwright.records.stock.catalog import need_stuff

OF_THE_MOLD = frozenset((NeedGroup.RUBBER, NeedGroup.SHELL))
"""What is needed once a mold, and no more once it stands."""
COUNTED = frozenset((NeedUnit.EACH, NeedUnit.PAIR))


@dataclass(frozen=True, slots=True)
class PlannedNeeds:
    """What of a plan tells what it needs: a small part of it, that is read without the rest."""

    count: int
    mixes: tuple[MixPlan, ...]
    needs: tuple[NeedPlan, ...]
    plan_hash: str = ""


def needs_of(plan: Plan) -> PlannedNeeds:
    """What of a plan tells what it needs.

    Parameters
    ----------
    plan : the whole.
    """
    return PlannedNeeds(plan.count, plan.mixes, plan.needs, plan.plan_hash)


@dataclass(frozen=True, slots=True)
class StillNeeded:
    """So much of a material, in its unit, that work ahead takes; `name`: for people."""

    key: StuffKey
    unit: NeedUnit
    amount: Range
    name: str


def needed_by_plan(plan: PlannedNeeds, casts: int | None = None) -> tuple[StillNeeded, ...]:
    """What a plan needs that is not begun.

    Parameters
    ----------
    plan : the plan.
    casts : so many casts, None: as many as it is for.

    Source: the plan's own list.
    """
    share = 1.0 if casts is None else casts / max(plan.count, 1)
    return _summed((need, 1.0 if need.for_ in OF_THE_MOLD else share, 0.0) for need in plan.needs)


def needed_by_run(plan: PlannedNeeds, events: Iterable[Event]) -> tuple[StillNeeded, ...]:
    """What a run under way needs yet: of what is weighed what is not in a cup yet; of what is done once a mold nothing
    once the mold stands in the register; of all else what the casts to come take.

    Parameters
    ----------
    plan : by which it goes on.
    events : of the run, in any order.

    Source: the plan's list, in proportion to the run's casts; arithmetic.
    """
    stands = standing(events)
    frame = frame_of_standing(stands)
    if frame.started is None or frame.ended_ms is not None:
        return ()
    casts = frame.started.casts
    measured = {body.turn for body, _ in bodies(stands, CastMeasured)}
    weighed, mixed = _weighed(plan, stands), _rows_of_cups(plan)
    rows = []
    for need in plan.needs:
        row = (need.for_, need.stuff, need.unit)
        todo = casts if row[:2] in mixed else max(casts - len(measured), 0)
        share = _share(need, frame, todo / max(plan.count, 1))
        rows.append((need, share, weighed.pop(row, 0.0) if share > 0.0 else 0.0))
    return _summed(rows)


def _share(need: NeedPlan, frame: RunFrame, casts: float) -> float:
    if need.for_ in OF_THE_MOLD:
        return 0.0 if frame.mold is not None else 1.0
    return casts


def _rows_of_cups(plan: PlannedNeeds) -> frozenset[tuple[NeedGroup, StuffKey]]:
    """The rows that parts of cups are taken from."""
    return frozenset((_group(mix.for_.kind), part.stuff) for mix in plan.mixes for part in mix.parts)


def _group(kind: MixKind) -> NeedGroup:
    if kind in RUBBER_KINDS:
        return NeedGroup.RUBBER
    return NeedGroup.CASTING if kind in CAST_KINDS else NeedGroup.SHELL


def _weighed(plan: PlannedNeeds, stands: Sequence[Event]) -> dict[tuple[NeedGroup, StuffKey, NeedUnit], float]:
    """What is in cups already, whether a lot was named or not, by the row that it is taken from: grams, and
    milliliters as the plan measures them. Of a cup that gelled only what is on the work: the rest is mixed again."""
    gelled = {body.cup: body.used for body, _ in bodies(stands, Gelled)}
    parts = {(mix.id, part.kind): (_group(mix.for_.kind), part) for mix in plan.mixes for part in mix.parts}
    found: dict[tuple[NeedGroup, StuffKey, NeedUnit], float] = {}
    for body, _ in bodies(stands, Weighed):
        if (body.cup.mix, body.part) not in parts:
            continue
        group, part = parts[body.cup.mix, body.part]
        mass_g = body.mass_g * gelled.get(body.cup, 1.0)
        milliliters = mass_g * part.volume_ml / part.mass_g if part.mass_g else 0.0
        for unit, amount in ((NeedUnit.GRAM, mass_g), (NeedUnit.MILLILITER, milliliters)):
            row = group, part.stuff, unit
            found[row] = found.get(row, 0.0) + amount
    return found


def _summed(rows: Iterable[tuple[NeedPlan, float, float]]) -> tuple[StillNeeded, ...]:
    """Rows of one material and unit together: their share of the list, less what is weighed of them."""
    found: dict[tuple[StuffKey, NeedUnit], StillNeeded] = {}
    for need, share, weighed in rows:
        amount = _less(_shared(need.amount * share, need.unit), weighed)
        key = need.stuff, need.unit
        before = found.get(key)
        total = amount if before is None else before.amount + amount
        found[key] = StillNeeded(need.stuff, need.unit, total, need_stuff(need).name)
    return tuple(each for each in found.values() if each.amount.high > 0.0)


def _shared(amount: Range, unit: NeedUnit) -> Range:
    if unit not in COUNTED:
        return amount
    return Range(*(float(ceil(each - 1e-9)) for each in (amount.low, amount.likely, amount.high)))


def _less(amount: Range, taken: float) -> Range:
    return Range(*(max(each - taken, 0.0) for each in (amount.low, amount.likely, amount.high)))


def together(parts: Iterable[Iterable[StillNeeded]]) -> Mapping[tuple[StuffKey, NeedUnit], StillNeeded]:
    """What several plans and runs need together.

    Parameters
    ----------
    parts : what each needs.

    Source: bounds of sums are added: all may turn out high; arithmetic.
    """
    found: dict[tuple[StuffKey, NeedUnit], StillNeeded] = {}
    for each in (need for part in parts for need in part):
        before = found.get((each.key, each.unit))
        amount = each.amount if before is None else before.amount + each.amount
        found[each.key, each.unit] = StillNeeded(each.key, each.unit, amount, each.name)
    return found


@dataclass(frozen=True, slots=True)
class WorkAhead:
    """A run under way and what it needs yet. `still`: nothing was written for so long that it counts in no forecast.
    `plan_hash`: of the plan by which it goes."""

    run: RunId
    name: str
    needs: tuple[StillNeeded, ...]
    still: bool = False
    plan_hash: str = ""
