"""What is told of a mold: its next glove, its shrink, its log, in words."""

from __future__ import annotations

from moldwright.log.codes import short_code
from moldwright.log.event import Body, Event
from moldwright.log.mold_events import MoldInspected, MoldMade, MoldMeasured, MoldRetired, MoldStored
from moldwright.ranges import Range
from moldwright.records.molds.next_glove import GloveCall, NextGlove
from moldwright.records.molds.read import MoldKnown
from moldwright.records.molds.shrink import MoldShrink
from moldwright.text.shown import number
from moldwright.told.any_words import behind, entry_line, happened_anywhere
from moldwright.words.marked import words
from moldwright.words.speaker import say, with_mark

LOOK_FIRST = words("It lay long: look it over before the next cast, for tears, sticky or hard places, and dust.")


def spread(value: Range, decimals: int = 0) -> str:
    """A range as it is read: the likely, then low and high.

    Parameters
    ----------
    value : any.
    decimals : of all three.

    >>> spread(Range(3.0, 10.0, 25.0)), spread(Range.exactly(20.0))
    ('10 (3–25)', '20')
    """
    low, likely, high = (with_mark(f"{each:.{decimals}f}") for each in (value.low, value.likely, value.high))
    return likely if low == high else f"{likely} ({low}–{high})"


def next_words(known: MoldKnown) -> str:
    """When the next glove should be made, and why, in a sentence or two.

    Parameters
    ----------
    known : the mold.
    """
    found = known.next
    match found.call:
        case GloveCall.BY if found.begin_by is not None:
            days = (
                say("it takes {lead_days} working days", lead_days=known.facts.lead_days)
                if known.facts.lead_days
                else ""
            )
            return say(
                "Begin the next glove by {begin_by}: {days}, and this one may be worn {worn}.",
                begin_by=found.begin_by,
                days=days,
                worn=_worn(found),
            )
        case GloveCall.BY:
            return say("It may be worn {worn}. No plan tells how long a new one takes.", worn=_worn(found))
        case GloveCall.NOT_NEEDED:
            return say("No other glove is needed: {why}.", why=say(found.why))
        case GloveCall.NOW:
            return say("Begin the next glove now: {why}.", why=say(found.why))
        case GloveCall.NO_PACE:
            return say("No day can be told: {why}.", why=say(found.why))
        case GloveCall.UNKNOWN:
            return say(
                "Nobody knows how many casts it gives: tell of what it is and what is cast in it, or how many it lasts."
            )


def call_words(known: MoldKnown) -> str:
    """The same in a few words, for a list.

    Parameters
    ----------
    known : the mold.
    """
    if known.mold.retired is not None:
        return say("retired")
    match known.next.call:
        case GloveCall.BY if known.next.begin_by is not None:
            return say("next glove by {begin_by}", begin_by=known.next.begin_by)
        case GloveCall.NOW:
            return say("next glove now")
        case GloveCall.NOT_NEEDED:
            return say("no other glove needed")
        case _:
            return ""


def _worn(found: NextGlove) -> str:
    assert found.worn is not None
    return say("from {earliest} on, likely {likely}", earliest=found.worn.earliest, likely=found.worn.likely)


def shrink_words(shrink: MoldShrink) -> str:
    """How much smaller its casts are.

    Parameters
    ----------
    shrink : as measured.
    """
    nexts = (
        say(
            ", the next cast {low} to {high} %",
            low=with_mark(f"{shrink.next_pct.low:.2f}"),
            high=with_mark(f"{shrink.next_pct.high:.2f}"),
        )
        if shrink.next_pct
        else ""
    )
    out = say("; {left_out} that cannot be, left out", left_out=shrink.left_out) if shrink.left_out else ""
    return say(
        "{likely} % smaller than the original, {measured} measured{nexts}{out}",
        likely=with_mark(f"{shrink.likely_pct:.2f}"),
        measured=shrink.count,
        nexts=nexts,
        out=out,
    )


def log_line(event: Event, gone: bool) -> str:
    """One line of a mold's log, with the code by which it is struck out.

    Parameters
    ----------
    event : of the mold.
    gone : whether a line goes through it.
    """
    return entry_line(event, happened(event.body), gone)


def happened(body: Body) -> str:
    """What happened to a mold, in words.

    Parameters
    ----------
    body : of an event.
    """
    match body:
        case MoldMade(name, run):
            return say(
                "registered as {name}{why}",
                name=name,
                why=say(", made by run {code}", code=short_code(run)) if run else "",
            )
        case MoldInspected(state, text):
            return say("looked over: {state}{why}", state=state, why=behind(text, ","))
        case MoldMeasured(shrink_pct):
            return say("measured: {number} % smaller", number=number(shrink_pct))
        case MoldStored(stored):
            return say("moved to {stored}", stored=stored)
        case MoldRetired(why):
            return say("retired{why}", why=behind(why))
        case _:
            return happened_anywhere(body)
