"""Where somebody is at a run without having written anything: what was turned to, passed over, chosen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from moldwright.bench.acts import Act
from moldwright.log.ids import EventId, LotId
from moldwright.plan.mixes import StuffKey
from moldwright.records.runs.boxes import BoxId
from moldwright.records.runs.doing.put_right import just_poured_over, ways
from moldwright.records.runs.next_act import NextAct, next_act
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.remedies import CupRemedy


@dataclass(frozen=True, slots=True)
class BenchPlace:
    """What a screen holds by itself.

    Parameters
    ----------
    wanted : the act that was turned to.
    passed : boxes in which nothing is written.
    gone_on : the entry that poured a part over, after which somebody goes on with new totals.
    chosen : the lots that were chosen.
    """

    wanted: Act | None = None
    passed: frozenset[BoxId] = frozenset()
    gone_on: EventId | None = None
    chosen: Mapping[StuffKey, LotId] = field(default_factory=dict)


def next_at(run: OpenRun, place: BenchPlace) -> NextAct:
    """What is next for a screen.

    Parameters
    ----------
    run : as it stands.
    place : where the screen is.
    """
    return next_act(run, place.wanted, place.passed)


def ways_at(run: OpenRun, next_: NextAct, place: BenchPlace) -> tuple[CupRemedy, ...]:
    """The ways to put a cup right between which a screen has to choose; none where it has not.

    Parameters
    ----------
    run : as it stands.
    next_ : what is next.
    place : where the screen is.
    """
    asked = None if next_.cup is None else just_poured_over(run, next_.cup, place.gone_on)
    return ways(run, next_, asked)
