"""Entries that may stand in any log, in words, and a line of a log."""

from __future__ import annotations

from datetime import datetime

from moldwright.log.any_events import Attached, Noted, Undone
from moldwright.log.codes import short_code
from moldwright.log.event import Body, Event
from moldwright.words.speaker import say


def moment(at_ms: int) -> str:
    """A time as the shop's clock shows it.

    Parameters
    ----------
    at_ms : milliseconds since 1970-01-01 UTC.
    """
    return f"{datetime.fromtimestamp(at_ms / 1000):%Y-%m-%d %H:%M}"


def entry_line(event: Event, words: str, gone: bool) -> str:
    """One line of a log, with the code by which it is struck out.

    Parameters
    ----------
    event : any.
    words : what happened.
    gone : whether a line goes through it.
    """
    told = say("struck out: {words}", words=words) if gone else words
    return f"{moment(event.at_ms)}  {short_code(event.id)}  {told}{f'  ({event.by})' if event.by else ''}"


def happened_anywhere(body: Body) -> str:
    """What happened, of what may happen to anything.

    Parameters
    ----------
    body : of an event.
    """
    match body:
        case Noted(text=text):
            return say("note: {words}", words=text)
        case Attached(file=file, text=text):
            return say("file: {told}", told=text or file[:12])
        case Undone(event, why):
            return say("a line through {code}{why}", code=short_code(event), why=behind(why))
        case _:
            return say("something that this version does not know")


def behind(why: str, mark: str = ":") -> str:
    """A reason as it stands behind what was done; nothing where none was told.

    Parameters
    ----------
    why : in somebody's own words.
    mark : between both.
    """
    return f"{mark} {why}" if why else ""
