"""The work in totals: hours of hands, longest waits, fewest days, what is lifted."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.plan.ids import CoatId, StepId
from moldwright.ranges import Range


@dataclass(frozen=True, slots=True)
class LongWait:
    """One of the longest waits: the step that it follows, and how long [min]."""

    step: StepId
    wait_min: Range


@dataclass(frozen=True, slots=True)
class Lifted:
    """What a step lifts [kg], where it is heavy enough to be told."""

    step: StepId
    lift_kg: float


@dataclass(frozen=True, slots=True)
class DaysPlan:
    """Fewest working days, one after the other.

    Parameters
    ----------
    mold, cast : days till the mold is ready, and from the washed glove to a cast that is done.
    day_min : hands' time in a day [min].
    coats_min : from the first stroke of the first coat to the last of the last, waits likely [min]; 0 where the layers
        of a rubber that dries may be parted by any night.
    late : coats that no start within the hours brings on before the coat before has passed its tack window.
    longer : steps at which more work hangs together than a day has hours for.
    """

    mold: int
    cast: int
    day_min: float
    coats_min: float
    late: tuple[CoatId, ...]
    longer: tuple[StepId, ...]


@dataclass(frozen=True, slots=True)
class TotalsPlan:
    """The work in totals, reckoned from the steps that stand, the maker's own among them.

    Parameters
    ----------
    mold_labor_min, cast_labor_min, edition_labor_min : hands at work: on the mold, on each cast, once at the end [min].
    waits : the longest, longest first.
    days : fewest working days.
    lifts : what weighs enough to be told, in the order of the work.
    """

    mold_labor_min: float
    cast_labor_min: float
    edition_labor_min: float
    waits: tuple[LongWait, ...]
    days: DaysPlan
    lifts: tuple[Lifted, ...]
