"""Lines that turn to a step, call it done or in hand, leave it out; and what strikes out."""

from __future__ import annotations

from collections.abc import Iterator

from moldwright.bench.now import ActState
from moldwright.desk.bench_session import BenchSession
from moldwright.log.codes import short_code
from moldwright.records.runs.doing import acts
from moldwright.records.runs.doing.finish import register_mold
from moldwright.records.runs.doing.strike import strike_out_all, strikes_next
from moldwright.sheets.bench_words import clock
from moldwright.told.bench.entry_words import said_of

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
    last = strikes_next(session.run, session.clock.bench, session.written)
    for event, logged in strike_out_all(session.at, [rest] if rest else [each.id for each in last]):
        session.took(logged)
        yield f"Struck out: {clock(event.at_ms, session.clock.now())} {said_of(session.words, event.body)}."
        yield from session.findings(logged.found)
    session.choosing = None


def leave_out(session: BenchSession, rest: str) -> Told:
    yield from session.kept(acts.leave_out(session.at, *acts.act_in_front(session.run, session.next, rest)))


def done(session: BenchSession, rest: str) -> Told:
    act, time = acts.act_in_front(session.run, session.next, rest)
    at_ms = acts.time_meant(session.clock.now(), time) if time else None
    yield from session.kept(acts.done(session.at, act, at_ms))


def begin(session: BenchSession, rest: str) -> Told:
    act, _ = acts.act_in_front(session.run, session.next, rest)
    logged = acts.begin(session.at, act)
    session.wanted = act
    yield from session.kept(logged)


def turn_to(session: BenchSession, rest: str) -> Told:
    if not rest:
        may = [each for each in session.run.state.acts if each.state is ActState.IN_HAND or each.may_begin]
        yield "At hand:" if may else "Nothing may be begun now."
        yield from (
            f"  {session.words.numbers[a.act.step]}{f'/{a.act.turn}' * bool(a.act.turn)} {session.words.title(a.step)}"
            for a in may
        )
        return
    act, _ = acts.act_in_front(session.run, session.next, rest)
    session.turn_to(act)
    now = session.run.state.act(act)
    assert now is not None
    yield from (f"! {session.words.act(each.act)} is not done, or its wait is not over." for each in now.holds)


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
    mold = register_mold(session.at, rest)
    session.look()
    yield f"Kept: the mold is in the register, {short_code(mold)}."
