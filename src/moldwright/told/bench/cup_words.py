"""What the bench says of a lot that a part is taken from, and of the ways to put a cup right."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from moldwright.bench.cup_now import CupNow, PartNow
from moldwright.log.codes import short_code
from moldwright.mixing.correct import FASTER, HOT_REST
from moldwright.records.runs.lots import LotDoubt, LotFor
from moldwright.records.runs.remedies import CupRemedy, RemedyKind
from moldwright.records.stock.left import LotState
from moldwright.sheets.bench_words import BenchWords
from moldwright.text.harmless import harmless

STATES = {
    LotState.EXPIRED: "it has expired",
    LotState.USED_UP: "by the records it is used up",
    LotState.DISCARDED: "it was discarded",
    LotState.RECALLED: "it is RECALLED: do not use it",
}


def lot_lines(words: BenchWords, cup: CupNow, part: PartNow, lot: LotFor) -> Iterator[str]:
    """The lot that a part is taken from; what is wrong with it comes first.

    Parameters
    ----------
    words : of the run's plan.
    cup, part : what for.
    lot : which.
    """
    told = lot_name(lot)
    for doubt, line in lot_doubts(words, cup, part, lot):
        grave = "!" if doubt is LotDoubt.TOO_LITTLE else "!!"
        yield f"{grave} {line}{' l LOT takes another.' if doubt is LotDoubt.NOT_USABLE else ''}"
    if not lot.doubts:
        yield f"Lot of {words.part(cup, part.kind)}: {told}{lot_keeps(lot)}."


def lot_doubts(words: BenchWords, cup: CupNow, part: PartNow, lot: LotFor) -> Iterator[tuple[LotDoubt, str]]:
    """What is wrong with a lot, each in a sentence.

    Parameters
    ----------
    words : of the run's plan.
    cup, part : what for.
    lot : which.
    """
    told, of = lot_name(lot), lot.shelf.lot
    if LotDoubt.OTHER_STUFF in lot.doubts:
        other = harmless(of.stuff.name or of.stuff.id)
        yield LotDoubt.OTHER_STUFF, f"Lot {told} is of {other}, not of {words.part(cup, part.kind)}."
    if LotDoubt.NOT_USABLE in lot.doubts:
        why = f" ({harmless(of.recalled)})" if of.recalled else ""
        yield LotDoubt.NOT_USABLE, f"Lot {told}: {STATES[lot.shelf.state]}{why}."
    if LotDoubt.TOO_LITTLE in lot.doubts and lot.left_g is not None:
        yield LotDoubt.TOO_LITTLE, f"Lot {told} holds only {words.mass(lot.left_g)} by the records."


def lot_keeps(lot: LotFor) -> str:
    """To when a lot keeps and where it stands, as behind its name: ", keeps to 2027-03-01, shelf 2".

    Parameters
    ----------
    lot : which.
    """
    keeps = f", keeps to {lot.shelf.expires}" if lot.shelf.expires else ""
    return keeps + (f", {harmless(lot.shelf.lot.stored)}" if lot.shelf.lot.stored else "")


def lot_name(lot: LotFor) -> str:
    """A lot as its label says it.

    Parameters
    ----------
    lot : which.
    """
    return harmless(lot.shelf.lot.number) or short_code(lot.shelf.lot.id)


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
    yield f"OVER: {too_much(words, cup, ways[0])} in {words.cup(cup.ref)}. Put it right:"
    if cup.refused is not None:
        yield f"  {harmless(cup.refused.remedy)}"
    yield from (f"  {number} {_way(words, cup, way)}" for number, way in enumerate(ways, start=1))
    yield "Enter: 1; or type another digit. - strikes a wrong reading out."


def too_much(words: BenchWords, cup: CupNow, way: CupRemedy) -> str:
    """How much of what is over: "3.6 g too much B".

    Parameters
    ----------
    words : of the run's plan.
    cup : which.
    way : one of its remedies.
    """
    return f"{words.mass(way.more_g)} too much {words.part(cup, way.over.kind)}"


def _way(words: BenchWords, cup: CupNow, way: CupRemedy) -> str:
    title, lines = remedy_words(words, cup, way)
    return lines[0] if way.kind is RemedyKind.LIFT_OUT else f"{title}: {' '.join(lines)}"


def remedy_words(words: BenchWords, cup: CupNow, way: CupRemedy) -> tuple[str, tuple[str, ...]]:
    """A remedy: what it is called, and what it takes.

    Parameters
    ----------
    words : of the run's plan.
    cup : which.
    way : one of its remedies.
    """
    match way.kind:
        case RemedyKind.NEW_TARGETS:
            more = [part for part in cup.parts if part.add_g > 0.0]
            told = ", then ".join(f"{words.part(cup, part.kind)} up to {words.mass(part.reads_g)}" for part in more)
            return "Go on with new totals", (f"{told or 'nothing more goes in'}.", FASTER)
        case RemedyKind.DIVIDE:
            clean = "a clean cup" if way.cups == 2 else f"each of {way.cups - 1} clean cups"
            moved = f"stir, pour {words.mass(way.move_g)} into {clean}"
            return f"Make it {way.cups} cups", (f"{moved}; finish one after the other.",)
        case RemedyKind.LIFT_OUT:
            lifted = f"lift {words.mass(way.more_g)} out, the scale then reads {words.mass(way.reads_g)}"
            return "Lift it out", (f"Not stirred yet: {lifted}.",)
        case RemedyKind.START_AGAIN:
            hot = (HOT_REST,) if cup.reacts else ()
            return "Start this cup again", (f"{words.mass(cup.in_g)} is lost.", *hot)
