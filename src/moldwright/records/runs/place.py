"""Where somebody is at a run without having written anything: what was turned to, passed over, chosen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from moldwright.bench.acts import Act
from moldwright.errors import InputRefused
from moldwright.log.ids import LotId
from moldwright.plan.ids import StepId
from moldwright.plan.mixes import StuffKey
from moldwright.records.runs.boxes import BoxId
from moldwright.records.runs.doing.put_right import just_poured_over, ways
from moldwright.records.runs.next_act import NextAct, next_act
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.remedies import CupRemedy
from moldwright.store.walk import Reader, Torn, read
from moldwright.text.shown import short


@dataclass(frozen=True, slots=True)
class BenchPlace:
    """What a screen holds by itself.

    Parameters
    ----------
    wanted : the act that was turned to.
    passed : boxes in which nothing is written.
    chosen : the lots that were chosen.
    """

    wanted: Act | None = None
    passed: frozenset[BoxId] = frozenset()
    chosen: Mapping[StuffKey, LotId] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class _Box:
    step: StepId
    turn: int
    key: str


@dataclass(frozen=True, slots=True)
class _Lot:
    kind: str
    id: str
    lot: LotId


@dataclass(frozen=True, slots=True)
class _Sent:
    wanted: Act | None = None
    passed: tuple[_Box, ...] = ()
    chosen: tuple[_Lot, ...] = ()


class _PlaceReader(Reader):
    defaults = True


def place_sent(tree: object) -> BenchPlace:
    """Where a screen says that it is.

    Parameters
    ----------
    tree : of JSON: wanted (step, turn), passed (a list of step, turn, key), chosen (a list of
        a material's kind and id and the lot); what is left out is none.

    Raises InputRefused ("place-unreadable").
    """
    try:
        sent = read(_Sent, tree if isinstance(tree, dict) else None, _PlaceReader(), "place")
    except (Torn, ValueError, RecursionError) as error:
        remedy = "Load the page again."
        raise InputRefused("place-unreadable", short(str(error)), "where a screen is", "", remedy) from None
    passed = frozenset((each.step, each.turn, each.key) for each in sent.passed)
    return BenchPlace(sent.wanted, passed, {StuffKey(e.kind, e.id): e.lot for e in sent.chosen})


def next_at(run: OpenRun, place: BenchPlace) -> NextAct:
    """What is next for a screen.

    Parameters
    ----------
    run : as it stands.
    place : where the screen is.
    """
    return next_act(run, place.wanted, place.passed)


def ways_at(run: OpenRun, next_: NextAct) -> tuple[CupRemedy, ...]:
    """The ways to put a cup right between which a screen has to choose; none where it has not.

    Parameters
    ----------
    run : as it stands.
    next_ : what is next.
    """
    asked = None if next_.cup is None else just_poured_over(run, next_.cup)
    return ways(run, next_, asked)
