"""What the bench asks for next, and what Enter does: told before it is pressed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from moldwright.bench.cup_now import CupNow, PartNow
from moldwright.bench.now import ActNow
from moldwright.log.codes import short_code
from moldwright.mixing.correct import FASTER, HOT_REST
from moldwright.plan.mixes import MeasuredBy
from moldwright.records.runs.lots import LotDoubt, LotFor
from moldwright.records.runs.next_act import NextAct, Press, laid_by
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.remedies import CupRemedy, RemedyKind
from moldwright.records.stock.left import LotState
from moldwright.sheets.bench_tell import order_lines, part_line, wait_line
from moldwright.sheets.bench_words import BenchWords, clock
from moldwright.text.harmless import harmless

STATES = {
    LotState.EXPIRED: "it has expired",
    LotState.USED_UP: "by the records it is used up",
    LotState.DISCARDED: "it was discarded",
    LotState.RECALLED: "it is RECALLED: do not use it",
}


def asked(words: BenchWords, run: OpenRun, next_: NextAct, lot: LotFor | None) -> Iterator[str]:
    """The lines before the answer; the last one says what Enter does.

    Parameters
    ----------
    words : of the run's plan.
    run : as it stands.
    next_ : what is next.
    lot : that the part is taken from.
    """
    yield from _others(words, next_.others)
    match next_.press:
        case Press.WEIGH:
            yield from _weigh(words, next_, lot, run.state.now_ms)
        case Press.LAY:
            assert next_.cup is not None
            yield f"Enter: {words.cup(next_.cup.ref)} is stirred and on the work."
        case Press.WRITE:
            assert next_.box is not None
            assert next_.act is not None
            line = words.wording.line(next_.box.line, next_.act.step.quantities)
            yield f"{harmless(line)}: type what it is. Enter: nothing is written."
        case Press.NUMBER:
            yield "Number: Enter: the next free one; or type the number; ap: an artist's proof."
        case Press.DONE:
            yield from _done(words, run, next_)
        case Press.WAIT:
            yield from (wait_line(words, each, run.state.now_ms) for each in run.state.waits)
            yield "Nothing may be done now. Enter: look again."
        case Press.END:
            yield "All steps are done. Enter: the run is over."
        case Press.ENDED:
            at = run.state.frame.ended_ms or run.state.now_ms
            yield f"The run is over since {clock(at, run.state.now_ms)}. q: leave."
        case Press.PUT_RIGHT:
            pass


def _weigh(words: BenchWords, next_: NextAct, lot: LotFor | None, now_ms: int) -> Iterator[str]:
    cup, part = next_.cup, next_.part
    assert cup is not None
    assert part is not None
    if cup.in_g <= 0.0:
        measure = "Marked cup, read level." if cup.mix.marked else "Zero the empty cup."
        yield f"{_capital(words.cup(cup.ref))}. {measure}"
    yield from order_lines(cup, now_ms)
    if lot is not None:
        yield from lot_lines(words, cup, part, lot)
    yield part_line(words, cup, part)
    yield f"Enter: {_exactly(words, cup, part)}; or type what the scale reads."


def _exactly(words: BenchWords, cup: CupNow, part: PartNow) -> str:
    match part.by:
        case MeasuredBy.STICK:
            return "it is in"
        case MeasuredBy.SYRINGE:
            return f"exactly {part.add_ml:g} ml"
        case MeasuredBy.MARKS:
            return f"exactly {words.volume(part.add_ml)}"
        case _:
            return f"exactly {words.mass(part.reads_g)}"


def lot_lines(words: BenchWords, cup: CupNow, part: PartNow, lot: LotFor) -> Iterator[str]:
    """The lot that a part is taken from; what is wrong with it comes first.

    Parameters
    ----------
    words : of the run's plan.
    cup, part : what for.
    lot : which.
    """
    name, told = words.part(cup, part.kind), lot_name(lot)
    if LotDoubt.OTHER_STUFF in lot.doubts:
        yield f"!! Lot {told} is of {harmless(lot.shelf.lot.stuff.name or lot.shelf.lot.stuff.id)}, not of {name}."
    if LotDoubt.NOT_USABLE in lot.doubts:
        why = f" ({harmless(lot.shelf.lot.recalled)})" if lot.shelf.lot.recalled else ""
        yield f"!! Lot {told}: {STATES[lot.shelf.state]}{why}. l LOT takes another."
    if LotDoubt.TOO_LITTLE in lot.doubts and lot.left_g is not None:
        yield f"! Lot {told} holds only {words.mass(lot.left_g)} by the records."
    if not lot.doubts:
        keeps = f", keeps to {lot.shelf.expires}" if lot.shelf.expires else ""
        stored = f", {harmless(lot.shelf.lot.stored)}" if lot.shelf.lot.stored else ""
        yield f"Lot of {name}: {told}{keeps}{stored}."


def lot_name(lot: LotFor) -> str:
    """A lot as its label says it.

    Parameters
    ----------
    lot : which.
    """
    return harmless(lot.shelf.lot.number) or short_code(lot.shelf.lot.id)


def _done(words: BenchWords, run: OpenRun, next_: NextAct) -> Iterator[str]:
    assert next_.act is not None
    cups = [words.cup(cup.ref) for cup in laid_by(run.state, next_.act)]
    laid = f"{', '.join(cups)} is on the work and " if cups else ""
    yield f"Enter: {laid}{words.act(next_.act.act)} is done."


def _others(words: BenchWords, others: Sequence[ActNow]) -> Iterator[str]:
    if others:
        told = "; ".join(f"{_short(words, each)} {words.title(each.step)}" for each in others[:4])
        more = f" and {len(others) - 4} more" if len(others) > 4 else ""
        yield f"Also at hand: {told}{more}. /NUMBER turns to it."


def _short(words: BenchWords, each: ActNow) -> str:
    number = words.numbers[each.act.step]
    return f"{number}/{each.act.turn}" if each.act.turn else str(number)


def remedy_lines(words: BenchWords, cup: CupNow, ways: Sequence[CupRemedy]) -> Iterator[str]:
    """What may be done about a cup that was poured over, numbered; the first is what Enter does.

    Parameters
    ----------
    words : of the run's plan.
    cup : which.
    ways : to put it right.
    """
    if not ways:
        return
    over = ways[0].over
    name = words.part(cup, over.kind)
    yield f"OVER: {words.mass(ways[0].more_g)} too much {name} in {words.cup(cup.ref)}. Put it right:"
    if cup.refused is not None:
        yield f"  {harmless(cup.refused.remedy)}"
    yield from (f"  {number} {_way(words, cup, way)}" for number, way in enumerate(ways, start=1))
    yield "Enter: 1; or type another digit. - strikes a wrong reading out."


def _way(words: BenchWords, cup: CupNow, way: CupRemedy) -> str:
    match way.kind:
        case RemedyKind.NEW_TARGETS:
            more = [part for part in cup.parts if part.add_g > 0.0]
            told = ", then ".join(f"{words.part(cup, part.kind)} up to {words.mass(part.reads_g)}" for part in more)
            return f"Go on with new totals: {told or 'nothing more goes in'}. {FASTER}"
        case RemedyKind.DIVIDE:
            clean = "a clean cup" if way.cups == 2 else f"each of {way.cups - 1} clean cups"
            moved = f"stir, pour {words.mass(way.move_g)} into {clean}"
            return f"Make it {way.cups} cups: {moved}; finish one after the other."
        case RemedyKind.LIFT_OUT:
            return (
                f"Not stirred yet: lift {words.mass(way.more_g)} out, the scale then reads {words.mass(way.reads_g)}."
            )
        case RemedyKind.START_AGAIN:
            return f"Start this cup again: {words.mass(cup.in_g)} is lost." + (f" {HOT_REST}" if cup.reacts else "")


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
