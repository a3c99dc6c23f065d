"""What may be done about a cup that was poured over, each with the entries that it takes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

from moldwright.bench.cup_now import CupNow, PartNow
from moldwright.bench.run import RunState
from moldwright.log.event import Body
from moldwright.log.run_events import Divided, Gelled, Weighed, WentOn
from moldwright.plan.mixes import MeasuredBy, PartKind


class RemedyKind(Enum):
    """What is done about it."""

    NEW_TARGETS = 1
    DIVIDE = 2
    LIFT_OUT = 3
    START_AGAIN = 4


@dataclass(frozen=True, slots=True)
class CupRemedy:
    """One way to put a cup right.

    Parameters
    ----------
    kind : which.
    bodies : what is written when it is chosen.
    over : the part that was poured over.
    more_g : by how much.
    reads_g : what the scale shows once that much is out.
    cups : into how many cups it is parted.
    move_g : what goes into each of the clean ones.
    """

    kind: RemedyKind
    bodies: tuple[Body, ...]
    over: PartNow
    more_g: float
    reads_g: float = 0.0
    cups: int = 1
    move_g: float = 0.0


def over_part(cup: CupNow) -> PartNow | None:
    """The part that is over what was planned and may be; of several the one that went in last.

    Parameters
    ----------
    cup : as it stands.
    """
    over = [part for part in cup.parts if part.over_g > 0.0]
    return max(over, key=lambda part: part.last_ms or 0, default=None)


def remedies(cup: CupNow, state: RunState, asked: tuple[PartKind, float] | None = None) -> tuple[CupRemedy, ...]:
    """The ways to put a cup right, the best first; none of a cup that is not over, or is on the work.

    Parameters
    ----------
    cup : as it stands.
    state : of its run.
    asked : the part that was poured over, and what was to be in of it by then [g]; None: by the plan.
    """
    planned = over_part(cup)
    if asked is None and planned is not None:
        asked = planned.kind, planned.planned_g
    if asked is None or cup.settled:
        return ()
    over = next(part for part in cup.parts if part.kind == asked[0])
    return tuple(_ways(cup, over, round(over.in_g - asked[1], 6), state))


def _ways(cup: CupNow, over: PartNow, more_g: float, state: RunState) -> Iterator[CupRemedy]:
    right = cup.put_right
    if right is None and cup.refused is None:
        return
    if right is not None and len(right.cups) == 1:
        yield CupRemedy(RemedyKind.NEW_TARGETS, (WentOn(cup.ref),), over, more_g)
    if right is not None and len(right.cups) > 1:
        taken = max(each.ref.filling for each in state.cups if _same(each, cup))
        into = tuple(range(taken + 1, taken + len(right.cups)))
        divided = (Divided(cup.ref, into),)
        yield CupRemedy(RemedyKind.DIVIDE, divided, over, more_g, cups=len(right.cups), move_g=right.move_g)
    if cup.clock is None and over.by is MeasuredBy.SCALE and _last_in(cup) is over:
        yield _lifted(cup, over, more_g)
    yield CupRemedy(RemedyKind.START_AGAIN, (Gelled(cup.ref),), over, more_g)


def _same(one: CupNow, other: CupNow) -> bool:
    return (one.ref.mix, one.ref.turn) == (other.ref.mix, other.ref.turn)


def _last_in(cup: CupNow) -> PartNow:
    """What lies on top: it can be lifted out as long as nothing is stirred."""
    return max(cup.parts, key=lambda part: part.last_ms or 0)


def _lifted(cup: CupNow, over: PartNow, more_g: float) -> CupRemedy:
    reads = round(over.reads_g - over.add_g - more_g, 6)
    body = Weighed(cup.ref, over.kind, -more_g, -more_g, reads, in_before_g=over.in_g)
    return CupRemedy(RemedyKind.LIFT_OUT, (body,), over, more_g, reads)
