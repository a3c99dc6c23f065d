"""A cup on the screen: its parts, its limits, its lot, and the ways to put it right."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from math import fsum

from moldwright.bench.cup_now import CupNow, PartNow, PartState
from moldwright.log.ids import LotId
from moldwright.plan.cast import CastWay
from moldwright.plan.mixes import MeasuredBy, MixKind, PartKind
from moldwright.records.runs.lots import LotDoubt, LotFor
from moldwright.records.runs.remedies import CupRemedy, RemedyKind
from moldwright.sheets.vessels import begun
from moldwright.told.bench.cup_words import lot_doubts, lot_keeps, lot_name, remedy_words, too_much, why_refused
from moldwright.told.bench.figures import big, limits_of
from moldwright.told.bench.presses import right_press, template
from moldwright.told.bench.screen_words import ScreenWords
from moldwright.told.bench.turns import turn_of
from moldwright.told.bench.view_cup import CupShown, LotShown, NextPart, PartShown, PutRightShown, WayShown
from moldwright.told.bench.view_press import PressShown
from moldwright.words.marked import words
from moldwright.words.speaker import say

TURNED, FILLED, DOWN_A_SIDE = "turned", "filled", "down-a-side"
IN, NOW, TO_COME, SHORT, OVER = "in", "now", "to-come", "short", "over"
WAYS = {
    RemedyKind.NEW_TARGETS: "new-targets",
    RemedyKind.DIVIDE: "divide",
    RemedyKind.LIFT_OUT: "lift-out",
    RemedyKind.START_AGAIN: "start-again",
}
LABELS = {
    RemedyKind.NEW_TARGETS: words("Go on so"),
    RemedyKind.DIVIDE: words("Parted"),
    RemedyKind.LIFT_OUT: words("Lifted out"),
    RemedyKind.START_AGAIN: words("Start again"),
}


def cup_shown(words: ScreenWords, cup: CupNow, part: PartNow | None) -> CupShown:
    """A cup as it is drawn.

    Parameters
    ----------
    words : of the plan.
    cup : as it stands.
    part : that goes in next, None where none does.
    """
    return CupShown(
        ref=cup.ref,
        name=words.cup(cup.ref),
        holds_g=cup.most_g,
        holds=words.mass(cup.most_g) if cup.most_g > 0.0 else "",
        in_g=cup.in_g,
        in_text=words.mass(cup.in_g),
        parts=tuple(_part(words, cup, each, part) for each in cup.parts),
        measure=begun(cup.mix),
        out_in_ms=round(1000 * cup.out_in_s) if cup.out_in_s is not None and cup.clock is None else None,
        pour=_pour(words, cup),
    )


def _pour(words: ScreenWords, cup: CupNow) -> str:
    """How the cup goes into the mold."""
    match cup.mix.for_.kind:
        case MixKind.BACK_FILL:
            return DOWN_A_SIDE
        case MixKind.SKIN:
            return FILLED if words.plan.cast.way is CastWay.SOLID else TURNED
        case _:
            return ""


def _part(words: ScreenWords, cup: CupNow, part: PartNow, now: PartNow | None) -> PartShown:
    state = _state(part, now)
    total_g = part.reads_g if state in (NOW, TO_COME, SHORT) else _up_to(cup, part)
    mass_g = part.add_g if state in (NOW, TO_COME, SHORT) else part.in_g or part.target_g
    trace = part.by is MeasuredBy.STICK
    return PartShown(
        kind=part.kind.value,
        name=words.part(cup, part.kind),
        state=state,
        by=part.by.value,
        total_g=total_g,
        total=words.mass(total_g),
        mass=say("a trace") if trace else words.mass(mass_g),
    )


def _up_to(cup: CupNow, part: PartNow) -> float:
    """What the scale showed once a part was in: with all that goes in before it [g]."""
    place = next(n for n, each in enumerate(cup.parts, start=1) if each.kind == part.kind)
    return fsum(each.in_g for each in cup.parts[:place])


def _state(part: PartNow, now: PartNow | None) -> str:
    if now is not None and part.kind == now.kind:
        return NOW
    match part.state:
        case PartState.TO_COME:
            return TO_COME
        case PartState.SHORT:
            return SHORT
        case PartState.OVER:
            return OVER
        case _:
            return IN


def lot_shown(words: ScreenWords, cup: CupNow, part: PartNow, lot: LotFor) -> LotShown:
    """A lot, with what is wrong with it.

    Parameters
    ----------
    words : of the plan.
    cup, part : what it is for.
    lot : which.
    """
    doubts = tuple(lot_doubts(words, cup, part, lot))
    grave = any(doubt is not LotDoubt.TOO_LITTLE for doubt, _ in doubts)
    keeps = lot_keeps(lot).removeprefix(", ")
    sheet = lot.shelf.lot.sheet or ""
    return LotShown(lot.shelf.lot.id, lot_name(lot), keeps, tuple(line for _, line in doubts), grave, sheet)


AfterCup = Callable[[CupNow, PartNow, LotId | None], CupNow]
"""A cup after a part went in as it was asked for."""
LotOf = Callable[[PartKind], LotId | None]
"""The lot that a part of the cup is taken from."""


def put_right_shown(
    words: ScreenWords, cup: CupNow, ways: Sequence[CupRemedy], after: AfterCup, lot_of: LotOf
) -> PutRightShown:
    """The ways to put a cup right.

    Parameters
    ----------
    words : of the plan.
    cup : as it stands.
    ways : the best first.
    after : how a cup stands after a part.
    lot_of : the lots of its parts.
    """
    shown = tuple(_way(words, cup, way, n == 0, after, lot_of) for n, way in enumerate(ways))
    why = why_refused(words, cup.refused) if cup.refused is not None else ""
    return PutRightShown(say("{too_much}. Put it right:", too_much=too_much(words, cup, ways[0])), why, shown)


def _way(words: ScreenWords, cup: CupNow, way: CupRemedy, main: bool, after: AfterCup, lot_of: LotOf) -> WayShown:
    title, lines = remedy_words(words, cup, way)
    turn = turn_of(way.bodies[0])
    press = PressShown(WAYS[way.kind], say(LABELS[way.kind]), "", main, tuple(map(template, way.bodies)), turn=turn)
    if way.kind is not RemedyKind.NEW_TARGETS:
        return WayShown(WAYS[way.kind], title, lines, press)
    then = tuple(next_parts(words, cup, after, lot_of))
    return WayShown(WAYS[way.kind], title, lines, press, cup_shown(words, cup, cup.next), then)


def next_parts(words: ScreenWords, cup: CupNow, after: AfterCup, lot_of: LotOf) -> Iterator[NextPart]:
    """The parts that still go into a cup, each if the one before goes right.

    Parameters
    ----------
    words : of the plan.
    cup : as it stands.
    after : how a cup stands after a part.
    lot_of : the lots of its parts.
    """
    for _ in range(2 * len(cup.parts)):
        part = cup.next
        if part is None:
            return
        lot, limits = lot_of(part.kind), limits_of(words, cup, part)
        said = big(words, cup, part)
        figure = ("", "") if said.figure is None else (said.figure.text, said.figure.unit)
        low, high = (part.reads_g, part.reads_g) if limits is None else (limits.low, limits.high)
        yield NextPart(said.say, *figure, low, high, right_press(cup, part, lot, limits))
        cup = after(cup, part, lot)
