"""Two plans beside each other: every figure before and after, steps that go and come."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from moldwright.bench.plan_changes import plan_changes
from moldwright.plan.ids import StepId
from moldwright.plan.plan import Plan
from moldwright.sheets.wording import Wording
from moldwright.told.plan_figures import FigureGroup, PlanFigure, plan_figures, same_value


@dataclass(frozen=True, slots=True)
class FigurePair:
    """One figure in both plans; None where a plan has none.

    `changed`: whether the values are not one, and read otherwise: what lies beyond the last printed digit is no change
    to a hand.
    """

    group: FigureGroup
    name: str
    before: str | None
    after: str | None
    changed: bool


@dataclass(frozen=True, slots=True)
class PlansCompared:
    """Two plans.

    Parameters
    ----------
    pairs : all figures, by their groups.
    steps_gone, steps_new : titles of steps that only the one or the other has.
    """

    pairs: tuple[FigurePair, ...]
    steps_gone: tuple[str, ...]
    steps_new: tuple[str, ...]

    @property
    def changes(self) -> tuple[FigurePair, ...]:
        """What is not the same in both."""
        return tuple(pair for pair in self.pairs if pair.changed)

    @property
    def nothing(self) -> bool:
        """Whether both come to the same."""
        return not (self.changes or self.steps_gone or self.steps_new)


def plans_compared(before: Plan, after: Plan) -> PlansCompared:
    """Compare two plans by their values.

    Parameters
    ----------
    before, after : both in the units of who reads.
    """
    changes = plan_changes(before, after)
    return PlansCompared(
        tuple(_pairs(plan_figures(before), plan_figures(after))),
        _titles(before, changes.steps_gone),
        _titles(after, changes.steps_new),
    )


def _pairs(before: Iterable[PlanFigure], after: Iterable[PlanFigure]) -> list[FigurePair]:
    one, other = ({(each.group, each.key): each for each in figures} for figures in (before, after))
    order = list(FigureGroup)
    keys = sorted(dict.fromkeys((*other, *one)), key=lambda key: order.index(key[0]))
    return [_pair(one.get(key), other.get(key)) for key in keys]


def _pair(one: PlanFigure | None, other: PlanFigure | None) -> FigurePair:
    known = other or one
    assert known is not None
    before, after = one.told if one else None, other.told if other else None
    same = one is not None and other is not None and same_value(one.value, other.value)
    return FigurePair(known.group, known.name, before, after, not same and before != after)


def _titles(plan: Plan, ids: Iterable[StepId]) -> tuple[str, ...]:
    words, wanted = Wording(plan.units, plan.scale_g), set(ids)
    return tuple(words.line(step.title, step.quantities) for step in plan.steps if step.id in wanted)
