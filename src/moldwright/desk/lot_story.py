"""What a lot went into, as words and as JSON; a recall; the lots in a cast."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from moldwright.desk.lot_doing import Doing, happen, today
from moldwright.desk.say import say, say_json
from moldwright.desk.shop_at import opened, units_told
from moldwright.errors import InputRefused
from moldwright.log.codes import short_code
from moldwright.log.edition_events import Series
from moldwright.log.event import About
from moldwright.log.ids import RunId
from moldwright.log.lot_events import LotRecalled
from moldwright.plan.json_text import tree_of
from moldwright.records.editions.read import piece_meant
from moldwright.records.find import find
from moldwright.records.shop import Shop
from moldwright.records.stock.shelf import lot_on_shelf
from moldwright.records.stock.story import LotStory, MadeOfIt, lot_story, lots_in
from moldwright.records.stock.used_in import LotUse
from moldwright.text.harmless import harmless
from moldwright.told.any_words import moment
from moldwright.told.lot_words import counted_words, lines_of, shelf_tree
from moldwright.units import show_mass

RECALLED = "Recalled: it is offered for no cup any more. Look at what was made of it, and tell those who have it:"
WRONG = (
    "! wrong lot: the plan takes this part from another material. If another lot was meant, strike the weighing out",
    "  in the run's log and write it down anew; if not, look at how that cup cured.",
)
UNMADE = "Nothing was made of it as far as the log tells."


def story_lines(story: LotStory, units: str) -> list[str]:
    """What a lot went into, for people.

    Parameters
    ----------
    story : of the lot.
    units : "metric" or "us".
    """
    unit = story.shelf.lot.unit
    lines = [f"    {moment(count.at[0])}  {counted_words(count, unit, units)}" for count in story.counts]
    return [
        *_headed("counted", lines),
        *_headed("went into", [line for use in story.uses for line in use_lines(use, units)]),
        *_headed("molds that it is in", [f"    {short_code(mold)}" for mold in story.molds]),
        *_headed("numbered pieces that it is in", _pieces(story.pieces, drawn=False)),
        *_headed("numbered pieces drawn from these molds", _pieces(story.pieces, drawn=True)),
        *_headed("stands in a cup still, not poured", [f"    {_cup(use)}" for use in story.unpoured]),
    ]


def _headed(heading: str, lines: Sequence[str]) -> list[str]:
    return [f"  {heading}", *lines] if lines else []


def _pieces(pieces: Iterable[MadeOfIt], drawn: bool) -> list[str]:
    return [f"    {_piece(made)}" for made in pieces if made.drawn is drawn]


def _piece(made: MadeOfIt) -> str:
    piece = made.piece
    proof = "proof " if piece.series is Series.PROOF else ""
    whom = f", {piece.whom}" if piece.whom else ""
    return f"{made.edition} {proof}{piece.number}: {piece.state.value}{whom}{f', {piece.on}' if piece.on else ''}"


def use_lines(use: LotUse, units: str) -> list[str]:
    """What of a lot went into a cup, and what went wrong there.

    Parameters
    ----------
    use : the part of the cup.
    units : "metric" or "us".
    """
    lines = [f"    {moment(use.first_ms)}  {show_mass(use.mass_g, units)} as {use.part.value} in {_cup(use)}"]
    if use.gelled:
        lines.append("      lost: it gelled in the cup")
    if use.right is False:
        lines += [f"      {line}" for line in WRONG]
    for problem in use.problems:
        lines.append(f"      ! {problem.what.value}{f': {problem.text}' if problem.text else ''}")
    return lines


def _cup(use: LotUse) -> str:
    turn = f"cast {use.cup.turn}" if use.cup.turn else "mold"
    filling = f", mixed anew the {use.cup.filling}. time" if use.cup.filling > 1 else ""
    return f"{use.cup.mix}{filling}, {turn} of {use.name or 'a run'} ({short_code(use.run)})"


def story_tree(story: LotStory) -> dict[str, Any]:
    """The same as JSON tells it.

    Parameters
    ----------
    story : of the lot.
    """
    return {
        **shelf_tree(story.shelf),
        "counts": [{"at_ms": each.at[0], "said": each.said, "found": each.found} for each in story.counts],
        "went_into": [use_tree(use) for use in story.uses],
        "molds": list(story.molds),
        "pieces": [
            {"edition": made.edition, "drawn_from_its_mold": made.drawn, **tree_of(made.piece)} for made in story.pieces
        ],
    }


def use_tree(use: LotUse) -> dict[str, Any]:
    """What of a lot went into a cup, as JSON tells it.

    Parameters
    ----------
    use : the part of the cup.
    """
    return {**tree_of(use), "unpoured": use.unpoured}


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
    id_ = happen(Doing(place, by), which, LotRecalled(why)).shelf.lot.id
    with opened(place) as shop:
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
        run, turn = _meant(shop, what, cast)
        uses = lots_in(shop, run, turn)
        names = {use.lot: lot_on_shelf(shop, use.lot, today()).lot for use in uses}
    if as_json:
        say_json({"run": run, "cast": turn, "lots": [use_tree(use) for use in uses]})
        return
    for use in uses:
        lot = names[use.lot]
        number = f", number {lot.number}" if lot.number else ""
        say(harmless(f"{lot.stuff.name or lot.stuff.id}, {short_code(use.lot)}{number}"))
        say(harmless("\n".join(use_lines(use, units)), keep="\n"))
    if not uses:
        say("No lot is named by what was weighed into it.")


def _meant(shop: Shop, what: str, cast: int | None) -> tuple[RunId, int]:
    if cast is not None:
        return RunId(find(shop, About.RUN, what)), cast
    _, piece = piece_meant(shop, what)
    if piece.run is None:
        remedy = "It is older than the records, or its cast was not told when it got its number."
        raise InputRefused("cast-not-known", what, "a piece whose cast is known", "", remedy)
    return piece.run, piece.turn
