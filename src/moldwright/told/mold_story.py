"""A mold's story in words: how it stands, its runs and casts, what went wrong, what is in it."""

from __future__ import annotations

from collections.abc import Iterator

from moldwright.log.codes import short_code
from moldwright.log.event import Event
from moldwright.log.run_events import Problem
from moldwright.records.molds.casts import DrawnCast
from moldwright.records.molds.read import MoldKnown
from moldwright.records.molds.runs import MoldRun
from moldwright.records.molds.story import LotInMold
from moldwright.records.told import day_of
from moldwright.told.mold_words import LOOK_FIRST, next_words, shrink_words, spread
from moldwright.units import show_length, show_mass
from moldwright.words.speaker import say, say_count, with_mark


def state_words(known: MoldKnown) -> str:
    """How it was found last, and why it is out of use.

    Parameters
    ----------
    known : the mold.
    """
    mold = known.mold
    return say(mold.state) + (
        say("; retired: {told}", told=mold.retired or say("no reason told")) if mold.retired is not None else ""
    )


def drawn_words(known: MoldKnown) -> str:
    """Casts drawn, in a few words, and what is left: for a list.

    Parameters
    ----------
    known : the mold.
    """
    return say("{drawn} drawn", drawn=known.facts.drawn) + (
        say(", {number} left", number=spread(known.next.left)) if known.next.left else ""
    )


def fact_lines(known: MoldKnown) -> Iterator[str]:
    """How it stands: casts drawn and left, numbers, the next glove, whether to look it over, its shrink.

    Parameters
    ----------
    known : the mold.
    """
    mold = known.mold
    before = (
        say(", {drawn_before} of them before the records", drawn_before=mold.drawn_before) if mold.drawn_before else ""
    )
    yield say("{drawn} casts drawn{before}", drawn=known.facts.drawn, before=before)
    if known.facts.lasts is not None:
        pace = say("; of late {number} in 30 days", number=spread(known.next.pace, 1)) if known.next.pace else ""
        yield say(
            "gives {number} in all ({lasts_from}), {left} left{pace}",
            number=spread(known.facts.lasts),
            lasts_from=known.lasts_from,
            left=_left(known),
            pace=pace,
        )
    others = (
        say("; other molds give {others} casts yet at the least", others=with_mark(f"{known.facts.others:.0f}"))
        if known.facts.others
        else ""
    )
    if known.facts.wanted is not None:
        yield say(
            "for {names}: {wanted} numbers left{others}",
            names=", ".join(each.name for each in known.editions),
            wanted=known.facts.wanted,
            others=others,
        )
    yield next_words(known)
    if mold.retired is None:
        yield LOOK_FIRST if known.look_first else _kept(known)
    if known.shrink is not None:
        planned = say("; planned {number} %", number=spread(known.planned_pct, 2)) if known.planned_pct else ""
        yield f"{shrink_words(known.shrink)}{planned}"


def _kept(known: MoldKnown) -> str:
    return say(
        "Keep it cool, dark and dry, nothing on top, best with a sound cast in it. Not cast from till {day}: look it "
        "over before the next cast.",
        day=known.look_from,
    )


def _left(known: MoldKnown) -> str:
    return spread(known.next.left) if known.next.left else "?"


def lot_words(lot: LotInMold, units: str) -> str:
    """So much of a lot that is in it.

    Parameters
    ----------
    lot : which.
    units : "metric" or "us".
    """
    return say(
        "{mass} of {told} {number} ({code})",
        mass=show_mass(lot.mass_g, units),
        told=lot.name or "lot",
        number=lot.number,
        code=short_code(lot.lot),
    )


def run_words(run: MoldRun) -> str:
    """What a run did with it.

    Parameters
    ----------
    run : which.
    """
    did = say("made it") if run.made else say("cast from it")
    drew = (
        say("its plan cannot be read, so its casts are not counted")
        if run.unread
        else say_count("{casts} cast drawn", "{casts} casts drawn", len(run.casts), casts=len(run.casts))
    )
    return say(
        "run {code}, {name}, {day}: {did}, {drew}",
        code=short_code(run.id),
        name=run.name,
        day=day_of(run.started_ms),
        did=did,
        drew=drew,
    )


def cast_words(cast: DrawnCast, units: str) -> str:
    """A cast that it gave, with what was measured on it.

    Parameters
    ----------
    cast : which.
    units : "metric" or "us".
    """
    mass = show_mass(cast.mass_g, units, step_g=1.0) if cast.mass_g is not None else ""
    height = show_length(cast.height_mm, units, step_mm=0.1) if cast.height_mm is not None else ""
    return ", ".join(filter(None, (say("cast {turn}", turn=cast.turn), str(day_of(cast.at_ms)), mass, height)))


def problem_words(event: Event) -> str:
    """What went wrong, and when; "" for what is no such thing.

    Parameters
    ----------
    event : of a run.
    """
    match event.body:
        case Problem(what, text, _, turn):
            of = say("cast {turn}: ", turn=turn) if turn else ""
            return f"{day_of(event.at_ms)} {of}{say(what)}{f', {text}' if text else ''}"
    return ""
