"""`moldwright mold strike` and `moldwright piece strike`: a line through an entry, and what is printed of it."""

from __future__ import annotations

from collections.abc import Callable

from moldwright.desk.say import say, say_json
from moldwright.desk.shop_at import opened
from moldwright.log.event import About, Event
from moldwright.making.shop import bench_clock
from moldwright.records.strike import strike_out
from moldwright.text.harmless import harmless


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
