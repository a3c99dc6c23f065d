"""Steps: which one is meant, called done or in hand, left out."""

from __future__ import annotations

import re
from datetime import datetime, timedelta

from moldwright.bench.acts import Act
from moldwright.errors import InputRefused
from moldwright.log.run_events import Begun, Done, LeftOut
from moldwright.records.runs.doing.at_run import AtRun, act_needed
from moldwright.records.runs.next_act import FINISHED, NextAct
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.write import Logged
from moldwright.text.shown import short
from moldwright.words.speaker import say

STEP = re.compile(r"(\d{1,9})(?:/(\d{1,9}))?")
TIME = re.compile(r"(\d{1,2})[:.h](\d{2})")


def done(at: AtRun, act: Act, at_ms: int | None = None) -> Logged:
    """A step is done, whatever it waited for.

    Parameters
    ----------
    at : the bench.
    act : which.
    at_ms : when, None: now.
    """
    return at.write(Done(act.step, act.turn), at_ms=at_ms)


def begin(at: AtRun, act: Act) -> Logged:
    """A step is in hand.

    Parameters
    ----------
    at : the bench.
    act : which.
    """
    return at.write(Begun(act.step, act.turn))


def leave_out(at: AtRun, act: Act, why: str) -> Logged:
    """A step is not done.

    Parameters
    ----------
    at : the bench.
    act : which.
    why : in words.
    """
    return at.write(LeftOut(act.step, why, act.turn))


def act_in_front(run: OpenRun, next_: NextAct, written: str) -> tuple[Act, str]:
    """The act that a number at the front of a line names, else the one in hand; and what is behind it.

    Parameters
    ----------
    run : as it stands.
    next_ : what is next.
    written : "36", "36/2 too cold", "too cold".

    Raises InputRefused ("act-not-in-plan", "no-step").
    """
    told = STEP.match(written)
    if told is None or (written[told.end() :] and not written[told.end()].isspace()):
        return act_needed(next_), written
    return act_meant(run, int(told[1]), None if told[2] is None else int(told[2])), written[told.end() :].strip()


def act_meant(run: OpenRun, number: int, turn: int | None = None) -> Act:
    """The act of a step: of a named cast, else the first that is not finished.

    Parameters
    ----------
    run : as it stands.
    number : as it is printed, from 1.
    turn : of which cast.

    Raises InputRefused ("act-not-in-plan").
    """
    steps = run.plan.steps
    if 1 <= number <= len(steps):
        id_ = steps[number - 1].id
        acts = [each for each in run.state.acts if each.act.step == id_ and turn in (None, each.act.turn)]
        open_ = [each for each in acts if each.state not in FINISHED]
        if acts:
            return (open_ or acts)[0].act
    told = f"step {number}{'' if turn is None else f' of cast {turn}'}"
    remedy = say("Type a number as it is printed, 1 to {steps}; of a cast with the cast's: 42/2.", steps=len(steps))
    raise InputRefused("act-not-in-plan", told, "a step of this run", "", remedy)


def time_meant(now_ms: int, written: str) -> int:
    """The last time that the clock showed that [ms].

    Parameters
    ----------
    now_ms : the moment.
    written : "14:05".

    Raises InputRefused ("time-unclear").
    """
    told = TIME.fullmatch(written)
    if told is None or int(told[1]) > 23 or int(told[2]) > 59:
        raise InputRefused("time-unclear", short(written), "a time of the day", "", "Write it as 14:05.")
    now = datetime.fromtimestamp(now_ms / 1000)
    at = now.replace(hour=int(told[1]), minute=int(told[2]), second=0, microsecond=0)
    return int((at - timedelta(days=at > now)).timestamp() * 1000)
