"""What commands write of a mold or a piece and tell of it: an entry, or a line through one."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from moldwright.desk.say import say, say_json
from moldwright.desk.shop_at import opened
from moldwright.log.event import About, Event
from moldwright.making.shop import bench_clock
from moldwright.records.clock import BenchClock
from moldwright.records.shop import Shop
from moldwright.records.strike import strike_out
from moldwright.text.harmless import harmless

Id = TypeVar("Id")


def write_shown(
    found: tuple[Callable[[Shop, str], Id], str],
    writing: Callable[[Shop, BenchClock, Id], object],
    told: Callable[[Shop, Id, str, bool], None],
    who: tuple[str, str],
    as_json: bool,
) -> None:
    """Something is written of a thing of the records, and the thing is told.

    Parameters
    ----------
    found : finds it, and as what it was typed.
    writing : writes of it.
    told : prints it.
    who : the store, and by whom.
    as_json : print one JSON object.
    """
    meant, which = found
    with opened(who[0]) as shop:
        id_ = meant(shop, which)
        writing(shop, bench_clock(shop, who[1]), id_)
        told(shop, id_, "Written down", as_json)


def strike_shown(
    entry: tuple[About, str], why: str, who: tuple[str, str], as_json: bool, words: Callable[[Event], str]
) -> None:
    """A line through an entry.

    Parameters
    ----------
    entry : what it is about, and its code as it was typed.
    why : in words.
    who : the store, and by whom.
    as_json : print one JSON object.
    words : tells an entry in a line.
    """
    about, event = entry
    with opened(who[0]) as shop:
        gone = strike_out(shop, bench_clock(shop, who[1]), about, event, why)
    if as_json:
        say_json({"event": gone.id, about.value: gone.subject})
    else:
        say(f"Struck out: {harmless(words(gone))}")
