"""Lines that turn to a step, call it done or in hand, leave it out; and what strikes out."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import datetime, timedelta

from moldwright.bench.acts import Act
from moldwright.bench.now import ActState
from moldwright.desk.bench_say import said_of
from moldwright.desk.bench_session import BenchSession
from moldwright.errors import InputRefused
from moldwright.log.any_events import Undone
from moldwright.log.codes import short_code
from moldwright.log.run_events import (
    Begun,
    Done,
    LeftOut,
)
from moldwright.log.standing import struck
from moldwright.plan.ids import NOWHERE, StepId
from moldwright.records.molds.write import register_made
from moldwright.records.runs.next_act import mold_is_made
from moldwright.records.runs.write import last_of_bench, strike
from moldwright.sheets.bench_words import clock
from moldwright.text.shown import short

STEP = re.compile(r"(\d+)(?:/(\d+))?")
TIME = re.compile(r"(\d{1,2})[:.h](\d{2})")
Told = Iterator[str]


def strike_line(session: BenchSession, rest: str) -> Told:
    """Strike out what the last line wrote, all of it, or the entry that is named.

    Parameters
    ----------
    session : at the bench.
    rest : its id or code, "" for the last line's.
    """
    if not rest and session.lot_typed is not None:
        session.chosen.pop(session.lot_typed, None)
        session.lot_typed = None
        yield "The lot is taken back; nothing was struck out."
        return
    gone = struck(session.run.events)
    last = [event for event in session.written if event.id not in gone and not isinstance(event.body, Undone)]
    if not last and (of_bench := last_of_bench(session.run, session.clock.bench)) is not None:
        last = [of_bench]
    if not rest and not last:
        raise InputRefused("nothing-to-strike", "no entry of this bench", "an entry", "", "u CODE takes any.")
    for written in [rest] if rest else [event.id for event in reversed(last)]:
        logged = strike(session.shop, session.clock, session.run.id, written)
        session.take_in(logged)
        line = logged.events[0].body
        event = next(each for each in session.run.events if isinstance(line, Undone) and each.id == line.event)
        yield f"Struck out: {clock(event.at_ms, session.clock.now())} {said_of(session.words, event.body)}."
        yield from session.findings(logged.found)
    session.choosing = None


def leave_out(session: BenchSession, rest: str) -> Told:
    act, why = _act_in_front(session, rest)
    logged = session.write(LeftOut(act.step, why, act.turn))
    yield from session.told(logged, said_of(session.words, logged.events[0].body))


def done(session: BenchSession, rest: str) -> Told:
    act, time = _act_in_front(session, rest)
    at_ms = _at(session, time) if time else None
    logged = session.write(Done(act.step, act.turn), at_ms=at_ms)
    yield from session.told(logged, said_of(session.words, logged.events[0].body))


def _at(session: BenchSession, text: str) -> int:
    """The last time that the clock showed that."""
    told = TIME.fullmatch(text)
    if told is None or int(told[1]) > 23 or int(told[2]) > 59:
        raise InputRefused("time-unclear", short(text), "a time of the day", "", "Write it as 14:05.")
    now = datetime.fromtimestamp(session.clock.now() / 1000)
    at = now.replace(hour=int(told[1]), minute=int(told[2]), second=0, microsecond=0)
    return int((at - timedelta(days=at > now)).timestamp() * 1000)


def begin(session: BenchSession, rest: str) -> Told:
    act, _ = _act_in_front(session, rest)
    logged = session.write(Begun(act.step, act.turn))
    session.wanted = act
    yield from session.told(logged, said_of(session.words, logged.events[0].body))


def turn_to(session: BenchSession, rest: str) -> Told:
    if not rest:
        may = [each for each in session.run.state.acts if each.state is ActState.IN_HAND or each.may_begin]
        yield "At hand:" if may else "Nothing may be begun now."
        yield from (
            f"  {session.words.numbers[a.act.step]}{f'/{a.act.turn}' * bool(a.act.turn)} {session.words.title(a.step)}"
            for a in may
        )
        return
    act, _ = _act_in_front(session, rest)
    session.turn_to(act)
    now = session.run.state.act(act)
    assert now is not None
    yield from (f"! {session.words.act(each.act)} is not done, or its wait is not over." for each in now.holds)


def _act_in_front(session: BenchSession, rest: str) -> tuple[Act, str]:
    """The act that a number at the front of a line names, else the one in hand; and what is behind."""
    told = STEP.match(rest)
    if told is None or (rest[told.end() :] and not rest[told.end()].isspace()):
        return here(session, needed=True), rest
    return _act_of(session, int(told[1]), told[2]), rest[told.end() :].strip()


def _act_of(session: BenchSession, number: int, turn: str | None) -> Act:
    steps = session.run.plan.steps
    if 1 <= number <= len(steps):
        id_ = steps[number - 1].id
        acts = [each for each in session.run.state.acts if each.act.step == id_]
        if turn is not None:
            acts = [each for each in acts if each.act.turn == int(turn)]
        open_ = [each for each in acts if each.state not in (ActState.DONE, ActState.WAITING, ActState.LEFT_OUT)]
        if acts:
            return (open_ or acts)[0].act
    told = f"step {number}{f' of cast {turn}' if turn else ''}"
    remedy = f"Type a number as it is printed, 1 to {len(steps)}; of a cast with the cast's: 42/2."
    raise InputRefused("act-not-in-plan", told, "a step of this run", "", remedy)


def here(session: BenchSession, needed: bool = False) -> Act:
    """The act that is asked for.

    Parameters
    ----------
    session : at the bench.
    needed : refuse where none is; else one that is nowhere.
    """
    act = session.next.act
    if act is None and needed:
        raise InputRefused("no-step", "no step in hand", "a step's number", "", "Write it in front, as it is printed.")
    return act.act if act is not None else Act(StepId(NOWHERE))


def again(session: BenchSession, _rest: str) -> Told:
    session.look()
    session.say_again()
    yield from ()


def register(session: BenchSession, rest: str) -> Told:
    """Put the mold that the run made into the register.

    Parameters
    ----------
    session : at the bench.
    rest : what it is called; "" for the run's name.
    """
    if not mold_is_made(session.run.state):
        remedy = "Tick the steps of the mold first: it stands in the register once it can be cast from."
        raise InputRefused("mold-not-made", "a mold whose steps are not done", "a mold that is made", "", remedy)
    mold = register_made(session.shop, session.clock, session.run.id, rest)
    session.look()
    yield f"Kept: the mold is in the register, {short_code(mold)}."
