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
from moldwright.told.any_words import entry_line, happened_anywhere

LOOK_FIRST = "It lay long: look it over before the next cast, for tears, sticky or hard places, and dust."


def spread(value: Range, decimals: int = 0) -> str:
    """A range as it is read: the likely, then low and high.

    Parameters
    ----------
    value : any.
    decimals : of all three.

    >>> spread(Range(3.0, 10.0, 25.0)), spread(Range.exactly(20.0))
    ('10 (3–25)', '20')
    """
    low, likely, high = (f"{each:.{decimals}f}" for each in (value.low, value.likely, value.high))
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
            days = f"it takes {known.facts.lead_days} working days" if known.facts.lead_days else ""
            return f"Begin the next glove by {found.begin_by}: {days}, and this one may be worn {_worn(found)}."
        case GloveCall.BY:
            return f"It may be worn {_worn(found)}. No plan tells how long a new one takes."
        case GloveCall.NOT_NEEDED:
            return f"No other glove is needed: {found.why}."
        case GloveCall.NOW:
            return f"Begin the next glove now: {found.why}."
        case GloveCall.NO_PACE:
            return f"No day can be told: {found.why}."
        case GloveCall.UNKNOWN:
            return (
                "Nobody knows how many casts it gives: tell of what it is and what is cast in it, or how many it lasts."
            )


def call_words(known: MoldKnown) -> str:
    """The same in a few words, for a list.

    Parameters
    ----------
    known : the mold.
    """
    if known.mold.retired is not None:
        return "retired"
    match known.next.call:
        case GloveCall.BY if known.next.begin_by is not None:
            return f"next glove by {known.next.begin_by}"
        case GloveCall.NOW:
            return "next glove now"
        case GloveCall.NOT_NEEDED:
            return "no other glove needed"
        case _:
            return ""


def _worn(found: NextGlove) -> str:
    assert found.worn is not None
    return f"from {found.worn.earliest} on, likely {found.worn.likely}"


def shrink_words(shrink: MoldShrink) -> str:
    """How much smaller its casts are.

    Parameters
    ----------
    shrink : as measured.
    """
    nexts = f", the next cast {shrink.next_pct.low:.2f} to {shrink.next_pct.high:.2f} %" if shrink.next_pct else ""
    out = f"; {shrink.left_out} that cannot be, left out" if shrink.left_out else ""
    return f"{shrink.likely_pct:.2f} % smaller than the original, {shrink.count} measured{nexts}{out}"


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
            return f"registered as {name}{f', made by run {short_code(run)}' if run else ''}"
        case MoldInspected(state, text):
            return f"looked over: {state}{f', {text}' if text else ''}"
        case MoldMeasured(shrink_pct):
            return f"measured: {number(shrink_pct)} % smaller"
        case MoldStored(stored):
            return f"moved to {stored}"
        case MoldRetired(why):
            return f"retired{f': {why}' if why else ''}"
        case _:
            return happened_anywhere(body)
