"""What is obvious to do next in a run: which act is in hand, which cup and part, what one press writes. Pure."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from enum import Enum

from moldwright.bench.acts import MOLD_READY, PHASES, Act
from moldwright.bench.boxes import BoxOf
from moldwright.bench.cup_now import CupNow, CupState, PartNow
from moldwright.bench.now import ActNow, ActState
from moldwright.bench.run import RunState
from moldwright.log.event import Body
from moldwright.log.run_events import Done, Poured, Weighed
from moldwright.plan.steps import EACH_CAST
from moldwright.records.runs.boxes import BoxId, SheetBox, boxes_of, written_in
from moldwright.records.runs.opened import OpenRun


class Press(Enum):
    """What one press does."""

    WEIGH = 1
    PUT_RIGHT = 2
    LAY = 3
    WRITE = 4
    NUMBER = 5
    DONE = 6
    WAIT = 7
    END = 8
    ENDED = 9


@dataclass(frozen=True, slots=True)
class NextAct:
    """What is next.

    Parameters
    ----------
    press : what one press does.
    act : the act in hand, or the one that may begin; None: all must wait, or all is done.
    cup : the cup that is weighed or laid.
    part : the part that goes in.
    box : the box that is to be written in.
    bodies : what one press writes.
    others : what else is in hand or may be begun.
    """

    press: Press
    act: ActNow | None = None
    cup: CupNow | None = None
    part: PartNow | None = None
    box: SheetBox | None = None
    bodies: tuple[Body, ...] = ()
    others: tuple[ActNow, ...] = ()


FINISHED = (ActState.DONE, ActState.WAITING, ActState.LEFT_OUT)


def next_act(run: OpenRun, wanted: Act | None = None, skipped: Collection[BoxId] = ()) -> NextAct:
    """What is next.

    Parameters
    ----------
    run : as it stands.
    wanted : the act that somebody turned to; it is left when it is done.
    skipped : boxes of which it was said that nothing is written in them.
    """
    state = run.state
    if state.frame.ended_ms is not None:
        return NextAct(Press.ENDED)
    open_ = tuple(at_hand(state))
    act = next((each for each in state.acts if each.act == wanted and each.state not in FINISHED), None)
    act = act or next(iter(open_), None)
    if act is None:
        return NextAct(Press.END if all(each.state in FINISHED for each in state.acts) else Press.WAIT)
    others = tuple(each for each in open_ if each.act != act.act)
    return _of(run, act, others, skipped)


def at_hand(state: RunState) -> Iterator[ActNow]:
    """What is in hand or may begin: first the act that lays a cup which is mixed already, then the others in order.

    Parameters
    ----------
    state : of the run.
    """
    open_ = [each for each in state.acts if each.state is ActState.IN_HAND or each.may_begin]
    laying = [each for each in open_ if laid_by(state, each)]
    yield from laying
    yield from (each for each in open_ if each not in laying and each.state is ActState.IN_HAND)
    yield from (each for each in open_ if each not in laying and each.state is not ActState.IN_HAND)


def laid_by(state: RunState, act: ActNow) -> tuple[CupNow, ...]:
    """The cups that an act brings onto the work though another one mixed them: those of its coat.

    Parameters
    ----------
    state : of the run.
    act : any.
    """
    if act.step.mixes or act.step.coat is None or not (before := _before(state, act)):
        return ()
    cups = state.cups_of(before.act) if before.step.coat == act.step.coat else ()
    return tuple(cup for cup in cups if cup.in_g > 0.0 and not cup.settled)


def _before(state: RunState, act: ActNow) -> ActNow | None:
    number = next(n for n, each in enumerate(state.acts) if each.act == act.act)
    return state.acts[number - 1] if number else None


def _lays_later(state: RunState, act: ActNow) -> bool:
    """Whether the act behind lays what this one mixes."""
    number = next(n for n, each in enumerate(state.acts) if each.act == act.act)
    after = state.acts[number + 1] if number + 1 < len(state.acts) else None
    return bool(after and act.step.coat is not None and after.step.coat == act.step.coat and not after.step.mixes)


def _of(run: OpenRun, act: ActNow, others: tuple[ActNow, ...], skipped: Collection[BoxId]) -> NextAct:
    cups = [cup for cup in run.state.cups_of(act.act) if not cup.settled]
    for number, cup in enumerate(cups):
        if (told := _cup(run, act, cup, number == len(cups) - 1)) is not None:
            return NextAct(told.press, act, cup, told.part, None, told.bodies, others)
    box = next((each for each in boxes_of(act.step, act.act.turn) if _open(each, run, skipped)), None)
    if box is not None:
        numbered = box.kind is BoxOf.NUMBER and run.state.frame.started and run.state.frame.started.edition
        return NextAct(Press.NUMBER if numbered else Press.WRITE, act, box=box, others=others)
    poured = (Poured(cup.ref) for cup in laid_by(run.state, act))
    return NextAct(Press.DONE, act, bodies=(*poured, Done(act.act.step, act.act.turn)), others=others)


def _open(box: SheetBox, run: OpenRun, skipped: Collection[BoxId]) -> bool:
    """Whether it is asked for: a day, and when a cup came onto the work, other entries tell."""
    return box.kind not in (BoxOf.DATE, BoxOf.POURED) and box.id not in skipped and not written_in(box, run.events)


def _cup(run: OpenRun, act: ActNow, cup: CupNow, last: bool) -> NextAct | None:
    """What is next with a cup; None where its act only has to be called done."""
    part = cup.next
    if cup.state is CupState.OVER and (part is None or cup.put_right is None or len(cup.put_right.cups) > 1):
        return NextAct(Press.PUT_RIGHT)
    if part is not None:
        return NextAct(Press.WEIGH, part=part, bodies=(as_told(cup, part),))
    if cup.in_g > 0.0 and not (last and _lays_later(run.state, act)):
        return NextAct(Press.LAY, bodies=(Poured(cup.ref),))
    return None


def as_told(cup: CupNow, part: PartNow) -> Weighed:
    """A part exactly as it was asked for; nobody says that the scale was read.

    Parameters
    ----------
    cup : which.
    part : of it.
    """
    return Weighed(cup.ref, part.kind, part.add_g, part.add_g, in_before_g=part.in_g)


def as_read(cup: CupNow, part: PartNow, reads_g: float) -> Weighed:
    """A part by what the scale shows with it.

    Parameters
    ----------
    cup : which.
    part : of it.
    reads_g : the running total [g].
    """
    before = part.reads_g - part.add_g
    return Weighed(cup.ref, part.kind, part.add_g, round(reads_g - before, 6), reads_g, in_before_g=part.in_g)


def mold_is_made(state: RunState) -> bool:
    """Whether the run has made its mold, and no mold of it stands in the register.

    Parameters
    ----------
    state : of the run.
    """
    if state.frame.started is None or state.frame.mold is not None:
        return False
    making = [each for each in state.acts if _makes(each)]
    return bool(making) and all(each.state in FINISHED for each in making)


def _makes(act: ActNow) -> bool:
    return act.step.per not in EACH_CAST and PHASES.index(act.step.phase) < MOLD_READY
