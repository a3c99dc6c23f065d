"""What the bench asks for next, and what Enter does: told before it is pressed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from moldwright.bench.cup_now import CupNow, PartNow
from moldwright.bench.now import ActNow
from moldwright.plan.mixes import MeasuredBy
from moldwright.records.runs.lots import LotFor
from moldwright.records.runs.next_act import NextAct, Press, laid_by
from moldwright.records.runs.opened import OpenRun
from moldwright.sheets.bench_tell import order_lines, part_line, wait_line
from moldwright.sheets.bench_words import BenchWords, clock
from moldwright.sheets.vessels import begun
from moldwright.text.harmless import harmless
from moldwright.told.bench.cup_words import lot_lines


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
        yield f"{_capital(words.cup(cup.ref))}. {begun(cup.mix)}"
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


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
