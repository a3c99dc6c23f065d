"""What the bench says of a lot that a part is taken from, and of the ways to put a cup right."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from moldwright.bench.cup_now import CupNow, PartNow, Refusal
from moldwright.log.codes import short_code
from moldwright.mixing.correct import FASTER, HOT_REST
from moldwright.records.runs.lots import LotDoubt, LotFor
from moldwright.records.runs.remedies import CupRemedy, RemedyKind
from moldwright.records.stock.left import LotState
from moldwright.sheets.bench_words import BenchWords
from moldwright.text.harmless import harmless
from moldwright.ways import plain_figure, plain_key, worded
from moldwright.words.marked import words
from moldwright.words.speaker import say, say_marked

STATES = {
    LotState.EXPIRED: words("it has expired"),
    LotState.USED_UP: words("by the records it is used up"),
    LotState.DISCARDED: words("it was discarded"),
    LotState.RECALLED: words("it is RECALLED: do not use it"),
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
        yield say(
            "Lot of {part}: {told}{lot_keeps}.", part=words.part(cup, part.kind), told=told, lot_keeps=lot_keeps(lot)
        )


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
        yield (
            LotDoubt.OTHER_STUFF,
            say("Lot {told} is of {other}, not of {part}.", told=told, other=other, part=words.part(cup, part.kind)),
        )
    if LotDoubt.NOT_USABLE in lot.doubts:
        why = f" ({harmless(of.recalled)})" if of.recalled else ""
        yield (
            LotDoubt.NOT_USABLE,
            say("Lot {told}: {state}{why}.", told=told, state=say(STATES[lot.shelf.state]), why=why),
        )
    if LotDoubt.TOO_LITTLE in lot.doubts and lot.left_g is not None:
        yield (
            LotDoubt.TOO_LITTLE,
            say("Lot {told} holds only {left} by the records.", told=told, left=words.mass(lot.left_g)),
        )


def lot_keeps(lot: LotFor) -> str:
    """To when a lot keeps and where it stands, as behind its name: ", keeps to 2027-03-01, shelf 2".

    Parameters
    ----------
    lot : which.
    """
    keeps = say(", keeps to {expires}", expires=lot.shelf.expires) if lot.shelf.expires else ""
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
    yield say(
        "OVER: {too_much} in {cup}. Put it right:", too_much=too_much(words, cup, ways[0]), cup=words.cup(cup.ref)
    )
    if cup.refused is not None:
        yield f"  {harmless(why_refused(words, cup.refused))}"
    yield from (f"  {number} {_way(words, cup, way)}" for number, way in enumerate(ways, start=1))
    yield "Enter: 1; or type another digit. - strikes a wrong reading out."


def why_refused(words: BenchWords, refused: Refusal) -> str:
    """What to do where nothing puts a cup right, with the plan's masses.

    Parameters
    ----------
    words : of the run's plan.
    refused : why.
    """

    def measured(value: float, unit: str) -> str:
        return words.mass(value) if unit == "g" else plain_figure(value, unit)

    return say_marked(refused.remedy, lambda text: worded(text, plain_key, measured, say))


def too_much(words: BenchWords, cup: CupNow, way: CupRemedy) -> str:
    """How much of what is over: "3.6 g too much B".

    Parameters
    ----------
    words : of the run's plan.
    cup : which.
    way : one of its remedies.
    """
    return say("{more} too much {part}", more=words.mass(way.more_g), part=words.part(cup, way.over.kind))


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
            told = say(", then ").join(
                say("{part} up to {reads}", part=words.part(cup, part.kind), reads=words.mass(part.reads_g))
                for part in more
            )
            return say("Go on with new totals"), (f"{told or say('nothing more goes in')}.", say(FASTER))
        case RemedyKind.DIVIDE:
            clean = say("a clean cup") if way.cups == 2 else say("each of {cups} clean cups", cups=way.cups - 1)
            moved = say("stir, pour {move} into {clean}", move=words.mass(way.move_g), clean=clean)
            return say("Make it {cups} cups", cups=way.cups), (
                say("{moved}; finish one after the other.", moved=moved),
            )
        case RemedyKind.LIFT_OUT:
            lifted = say(
                "lift {more} out, the scale then reads {reads}",
                more=words.mass(way.more_g),
                reads=words.mass(way.reads_g),
            )
            return say("Lift it out"), (say("Not stirred yet: {lifted}.", lifted=lifted),)
        case RemedyKind.START_AGAIN:
            hot = (say(HOT_REST),) if cup.reacts else ()
            return say("Start this cup again"), (say("{into} is lost.", into=words.mass(cup.in_g)), *hot)
