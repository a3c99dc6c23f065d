"""What Enter and figures do: the obvious next thing, a reading, a choice."""

from __future__ import annotations

from collections.abc import Iterator

from moldwright.desk.bench_session import BenchSession
from moldwright.desk.bench_steps import turn_to
from moldwright.errors import InputRefused
from moldwright.log.codes import short_code
from moldwright.log.edition_events import Series
from moldwright.mixing.correct import HOT_REST
from moldwright.records.runs.doing.boxes import write_box
from moldwright.records.runs.doing.put_right import asked_by_plan
from moldwright.records.runs.doing.weigh import weigh
from moldwright.records.runs.next_act import NextAct, Press
from moldwright.records.runs.numbered import number_cast, number_meant
from moldwright.records.runs.remedies import CupRemedy, RemedyKind
from moldwright.records.runs.write import end_run
from moldwright.text.shown import short
from moldwright.told.bench.cup_words import lot_lines
from moldwright.told.bench.entry_words import said_of

Told = Iterator[str]


def enter(session: BenchSession, _rest: str) -> Told:
    next_ = session.next
    ways = session.ways(next_)
    if ways:
        yield from _remedy(session, ways[0])
    elif next_.press is Press.WRITE:
        assert next_.box is not None
        session.skipped.add(next_.box.id)
    elif next_.press is Press.NUMBER:
        yield from _number(session, next_, Series.NUMBERED, None)
    elif next_.press is Press.END:
        yield from _end(session)
    elif next_.press in (Press.WAIT, Press.ENDED):
        session.look()
    elif next_.press is Press.WEIGH:
        yield from _weigh(session, next_, None)
    else:
        yield from _write_next(session, next_)


def _write_next(session: BenchSession, next_: NextAct) -> Told:
    logged = session.took(session.at.write(*next_.bodies))
    yield from session.told(logged, ", ".join(said_of(session.words, body) for body in next_.bodies))
    if next_.press is Press.DONE and next_.act is not None:
        session.wanted = None


def _end(session: BenchSession) -> Told:
    session.took(end_run(session.shop, session.clock, session.run.id))
    yield "Kept: the run is over."


def figure(session: BenchSession, rest: str) -> Told:
    next_ = session.next
    if ways := session.ways(next_):
        chosen = int(rest) if rest.isdecimal() else 0
        if not 1 <= chosen <= len(ways):
            raise InputRefused("no-such-choice", rest, f"1 to {len(ways)}", "", "Type the digit of one of them.")
        yield from _remedy(session, ways[chosen - 1])
    elif next_.press is Press.WEIGH:
        yield from _weigh(session, next_, rest)
    elif next_.press is Press.WRITE:
        yield from _write_box(session, next_, rest)
    elif next_.press is Press.NUMBER:
        yield from _number(session, next_, *number_meant(rest))
    else:
        yield from turn_to(session, rest)


def _weigh(session: BenchSession, next_: NextAct, reading: str | None) -> Told:
    cup, part = next_.cup, next_.part
    assert cup is not None
    assert part is not None
    lot = session.lot_for(next_)
    done = weigh(session.at, cup, part, reading, None if lot is None else lot.shelf.lot.id)
    yield from session.told(session.took(done.logged), said_of(session.words, done.body))
    if lot is not None and lot.doubts:
        yield from lot_lines(session.words, cup, part, lot)
    session.choosing = done.over


def _remedy(session: BenchSession, way: CupRemedy) -> Told:
    session.choosing, cup = None, session.next.cup
    logged = session.at.write(*way.bodies)
    yield from session.told(session.took(logged), ", ".join(said_of(session.words, body) for body in way.bodies))
    if way.kind is RemedyKind.START_AGAIN and cup is not None and cup.reacts:
        yield HOT_REST


def _number(session: BenchSession, next_: NextAct, series: Series, number: int | None) -> Told:
    assert next_.box is not None
    piece, logged = number_cast(session.shop, session.clock, session.run, next_.box, series, number)
    told = said_of(session.words, session.took(logged).events[-1].body)
    yield from session.told(logged, f"cast {next_.box.turn} is {told}, piece {short_code(piece.id)}")


def proof(session: BenchSession, rest: str) -> Told:
    next_ = session.next
    if next_.press is not Press.NUMBER:
        raise InputRefused("not-now", "ap", "the step that numbers", "", "Type it at the step that writes the number.")
    yield from _number(session, next_, Series.PROOF, number_meant(rest)[1] if rest else None)


def _write_box(session: BenchSession, next_: NextAct, text: str) -> Told:
    assert next_.box is not None
    yield from session.kept(write_box(session.at, next_.box, text))


def text(session: BenchSession, rest: str) -> Told:
    next_ = session.next
    if next_.press is Press.WRITE:
        yield from _write_box(session, next_, rest)
        return
    if next_.press is Press.NUMBER:
        yield from _number(session, next_, *number_meant(rest))
        return
    remedy = 'A note begins with n: "n it wobbled". ? tells all that may be typed.'
    raise InputRefused("line-unclear", short(rest), "Enter, a figure or a word of one letter", "", remedy)


def right(session: BenchSession, _rest: str) -> Told:
    session.choosing = asked_by_plan(session.next)
    yield from ()
