"""What `moldwright lot recall` and `lot in` print."""

from __future__ import annotations

from moldwright.desk.say import say, say_json
from moldwright.desk.shop_at import opened, units_told
from moldwright.log.lot_events import LotRecalled
from moldwright.making.shop import bench_clock
from moldwright.records.clock import today
from moldwright.records.stock.doing import happen
from moldwright.records.stock.story import cast_meant, lot_story, lots_in
from moldwright.text.harmless import harmless
from moldwright.told.lot_story import RECALLED, UNMADE, in_terminal, story_lines, story_tree, use_tree
from moldwright.told.lot_words import lines_of
from moldwright.told.lots_in import NONE_IN, lots_told


def recall_shown(which: str, why: str, told: tuple[str, str, str], as_json: bool) -> None:
    """A lot is not to be used, and what was made of it is told.

    Parameters
    ----------
    which : the lot, as it was typed.
    why : in words.
    told : the store, by whom, the units.
    as_json : print one JSON object.
    """
    place, by, units = told
    units_told(units)
    with opened(place) as shop:
        id_ = happen(shop, bench_clock(shop, by), which, LotRecalled(why)).shelf.lot.id
        story = lot_story(shop, id_, today())
    if as_json:
        say_json(story_tree(story))
        return
    lines = story_lines(story, units) if story.uses else [UNMADE]
    say(harmless("\n".join([*lines_of(story.shelf, units), RECALLED, *lines]), keep="\n"))


def lots_in_shown(what: str, cast: int | None, place: str, units: str, as_json: bool) -> None:
    """The lots in a cast, in a numbered piece, or in a mold by the run that made it.

    Parameters
    ----------
    what : a numbered piece, or a run, as it was typed.
    cast : the cast's number in the run; 0 is its mold; None where a piece is meant.
    place : the store.
    units : "metric" or "us".
    as_json : print one JSON object.
    """
    units_told(units)
    with opened(place) as shop:
        run, turn = cast_meant(shop, what, cast)
        uses = lots_in(shop, run, turn)
        told = () if as_json else tuple(lots_told(shop, uses, units))
    if as_json:
        say_json({"run": run, "cast": turn, "lots": [use_tree(use) for use in uses]})
        return
    for each in told:
        number = f", number {each.number}" if each.number else ""
        say(harmless(f"{each.name}, {each.code}{number}"))
        say(harmless("\n".join(in_terminal(each.line)), keep="\n"))
    if not uses:
        say(NONE_IN)
