"""What may be done about a cup that was poured over, each with the entries that it takes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

from moldwright.bench.cup_now import CupNow, PartNow
from moldwright.bench.run import RunState
from moldwright.log.event import Body
from moldwright.log.run_events import Divided, Gelled, Weighed
from moldwright.plan.mixes import MeasuredBy


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
    bodies : what is written when it is chosen; none: the next totals follow from what is in.
    over : the part that was poured over.
    lift_g : what is taken out of it.
    reads_g : what the scale shows once that is out.
    cups : into how many cups it is parted.
    move_g : what goes into each of the clean ones.
    """

    kind: RemedyKind
    bodies: tuple[Body, ...]
    over: PartNow
    lift_g: float = 0.0
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


def remedies(cup: CupNow, state: RunState) -> tuple[CupRemedy, ...]:
    """The ways to put a cup right, the best first; none of a cup that is not over, or is on the work.

    Parameters
    ----------
    cup : as it stands.
    state : of its run.
    """
    over = over_part(cup)
    return () if over is None or cup.settled else tuple(_ways(cup, over, state))


def _ways(cup: CupNow, over: PartNow, state: RunState) -> Iterator[CupRemedy]:
    right = cup.put_right
    if right is not None and len(right.cups) == 1:
        yield CupRemedy(RemedyKind.NEW_TARGETS, (), over)
    if right is not None and len(right.cups) > 1:
        taken = max(each.ref.filling for each in state.cups if _same(each, cup))
        into = tuple(range(taken + 1, taken + len(right.cups)))
        yield CupRemedy(RemedyKind.DIVIDE, (Divided(cup.ref, into),), over, cups=len(right.cups), move_g=right.move_g)
    if cup.clock is None and over.by is MeasuredBy.SCALE and _last_in(cup) is over:
        yield _lifted(cup, over)
    yield CupRemedy(RemedyKind.START_AGAIN, (Gelled(cup.ref),), over)


def _same(one: CupNow, other: CupNow) -> bool:
    return (one.ref.mix, one.ref.turn) == (other.ref.mix, other.ref.turn)


def _last_in(cup: CupNow) -> PartNow:
    """What lies on top: it can be lifted out as long as nothing is stirred."""
    return max(cup.parts, key=lambda part: part.last_ms or 0)


def _lifted(cup: CupNow, over: PartNow) -> CupRemedy:
    more = round(over.in_g - over.planned_g, 6)
    reads = round(over.reads_g - over.add_g - more, 6)
    return CupRemedy(
        RemedyKind.LIFT_OUT, (Weighed(cup.ref, over.kind, -more, -more, reads),), over, lift_g=more, reads_g=reads
    )
