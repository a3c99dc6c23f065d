"""What turns the work aside: a step left out, a cup that gelled or is put right; each by what it writes."""

from __future__ import annotations

from collections.abc import Iterator

from moldwright.log.event import Body
from moldwright.log.run_events import CupRef, Divided, Gelled, LeftOut, Weighed
from moldwright.records.runs.ahead import Stand
from moldwright.records.runs.next_act import NextAct
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.said import SaidGelled


def turn_of(body: Body) -> str:
    """By what a screen finds what follows an entry; "" of one that does not turn the work aside.

    Parameters
    ----------
    body : what is written.

    >>> from moldwright.plan.ids import MixId
    >>> turn_of(Gelled(CupRef(MixId("skin.cup-1"), 2, 1)))
    'gelled/skin.cup-1/2/1'
    """
    match body:
        case LeftOut(step=step, turn=turn):
            return f"left-out/{step}/{turn}"
        case Gelled(cup=cup) | SaidGelled(cup=cup):
            return f"gelled/{cup.mix}/{cup.turn}/{cup.filling}"
        case Divided(cup=cup):
            return f"divided/{cup.mix}/{cup.turn}/{cup.filling}"
        case Weighed(cup=cup, mass_g=mass_g) if mass_g < 0.0:
            return f"lifted-out/{cup.mix}/{cup.turn}/{cup.filling}"
        case _:
            return ""


def cups_with_mix(run: OpenRun, next_: NextAct) -> tuple[CupRef, ...]:
    """The cup in hand and every cup whose clock runs, where something is in.

    Parameters
    ----------
    run : as it stands.
    next_ : what is next.
    """
    cups = (next_.cup, *run.state.running)
    return tuple({cup.ref: cup for cup in cups if cup is not None and cup.in_g > 0.0})


def turns_at(stand: Stand) -> Iterator[tuple[Body, ...]]:
    """What each press writes that turns the work aside.

    Parameters
    ----------
    stand : the run at one press.
    """
    if stand.run.state.frame.ended_ms is not None:
        return
    if (act := stand.next.act) is not None:
        yield (LeftOut(act.act.step, "", act.act.turn),)
    yield from ((Gelled(ref),) for ref in cups_with_mix(stand.run, stand.next))
    yield from (way.bodies for way in stand.ways if turn_of(way.bodies[0]))
