"""What Enter and figures do: the obvious next thing, a reading, a choice."""

from __future__ import annotations

from collections.abc import Iterator

from moldwright.bench.cup_now import CupNow, PartNow
from moldwright.desk.bench_ask import lot_lines
from moldwright.desk.bench_say import said_of
from moldwright.desk.bench_session import BenchSession
from moldwright.desk.bench_steps import turn_to
from moldwright.errors import InputRefused
from moldwright.log.codes import short_code
from moldwright.log.edition_events import Series
from moldwright.log.run_events import (
    Weighed,
)
from moldwright.mixing.correct import HOT_REST
from moldwright.plan.mixes import MeasuredBy
from moldwright.records.runs.boxes import body_of_box
from moldwright.records.runs.next_act import NextAct, Press, as_read
from moldwright.records.runs.numbered import number_cast, number_meant
from moldwright.records.runs.remedies import CupRemedy, RemedyKind, over_part
from moldwright.records.runs.typed import typed
from moldwright.records.runs.write import end_run
from moldwright.text.shown import short

Told = Iterator[str]


def enter(session: BenchSession, _rest: str) -> Told:
    next_ = session.next
    ways = session.ways(next_)
    if ways:
        yield from _remedy(session, ways[0])
    elif next_.press is Press.WRITE:
        assert next_.box is not None
        session.skipped.add(next_.box)
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
    logged = session.write(*next_.bodies)
    yield from session.told(logged, ", ".join(said_of(session.words, body) for body in next_.bodies))
    if next_.press is Press.DONE and next_.act is not None:
        session.wanted = None


def _end(session: BenchSession) -> Told:
    session.take_in(end_run(session.shop, session.clock, session.run.id))
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
    body = _weighed(session, cup, part, next_, reading)
    body = Weighed(body.cup, body.part, body.target_g, body.mass_g, body.reads_g, "", lot.shelf.lot.id if lot else None)
    logged = session.write(body)
    yield from session.told(logged, said_of(session.words, body))
    if lot is not None and lot.doubts:
        yield from lot_lines(session.words, cup, part, lot)
    now = session.run.state.cup(cup.ref)
    session.choosing = (cup.ref, part.kind, part.target_g) if now is not None and _went_over(now, part) else None


def _went_over(now: CupNow, part: PartNow) -> bool:
    """Whether more of the part is in than was asked for and may be."""
    there = next(each for each in now.parts if each.kind == part.kind).in_g
    return not now.settled and there - part.target_g > part.within_g + 1e-9


def _weighed(session: BenchSession, cup: CupNow, part: PartNow, next_: NextAct, reading: str | None) -> Weighed:
    if reading is None:
        told = next_.bodies[0]
        assert isinstance(told, Weighed)
        return told
    in_ml = part.by in (MeasuredBy.MARKS, MeasuredBy.SYRINGE) and _is_ml(reading)
    if part.by is MeasuredBy.MARKS or in_ml:
        if part.add_ml <= 0.0:
            raise InputRefused("nothing-to-add", reading, "a part that is still to come", "", "Look at the step (+).")
        volume = typed(reading, "volume", session.run.plan.units, "what went in")
        return Weighed(cup.ref, part.kind, part.add_g, round(part.add_g * volume / part.add_ml, 6))
    if reading.startswith("+"):
        mass_g = typed(reading[1:], "mass", session.run.plan.units, "what went in")
        return Weighed(cup.ref, part.kind, part.add_g, mass_g)
    read = as_read(cup, part, typed(reading, "mass", session.run.plan.units, "the scale reads"))
    if read.mass_g < 0.0:
        before, shown = session.words.mass(part.reads_g - part.add_g), session.words.mass(read.reads_g or 0.0)
        remedy = "Type all that the scale shows. Was it zeroed between? +3.2: so much went in. Taken out: see r."
        raise InputRefused("reads-less-than-before", shown, before, "", remedy)
    return read


def _is_ml(reading: str) -> bool:
    return reading.strip().casefold().endswith(("ml", "l", "fl oz"))


def _remedy(session: BenchSession, way: CupRemedy) -> Told:
    session.choosing, cup = None, session.next.cup
    if not way.bodies:
        yield "Go on with the new totals."
        return
    logged = session.write(*way.bodies)
    yield from session.told(logged, ", ".join(said_of(session.words, body) for body in way.bodies))
    if way.kind is RemedyKind.START_AGAIN and cup is not None and cup.reacts:
        yield HOT_REST


def _number(session: BenchSession, next_: NextAct, series: Series, number: int | None) -> Told:
    assert next_.box is not None
    piece, logged = number_cast(session.shop, session.clock, session.run, next_.box, series, number)
    session.take_in(logged)
    told = said_of(session.words, logged.events[-1].body)
    yield from session.told(logged, f"cast {next_.box.turn} is {told}, piece {short_code(piece.id)}")


def proof(session: BenchSession, rest: str) -> Told:
    next_ = session.next
    if next_.press is not Press.NUMBER:
        raise InputRefused("not-now", "ap", "the step that numbers", "", "Type it at the step that writes the number.")
    yield from _number(session, next_, Series.PROOF, number_meant(rest)[1] if rest else None)


def _write_box(session: BenchSession, next_: NextAct, text: str) -> Told:
    assert next_.box is not None
    logged = session.write(body_of_box(next_.box, text, session.run.plan.units))
    yield from session.told(logged, said_of(session.words, logged.events[0].body))


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
    cup = session.next.cup
    over = over_part(cup) if cup is not None else None
    if cup is None or over is None:
        raise InputRefused("nothing-over", "no part is over", "a cup that was poured over", "", "Go on: see Enter.")
    session.choosing = (cup.ref, over.kind, over.planned_g)
    yield from ()
