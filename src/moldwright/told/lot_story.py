"""What a lot went into, as words and as JSON."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from moldwright.log.codes import short_code
from moldwright.log.edition_events import Series
from moldwright.plan.json_text import tree_of
from moldwright.records.stock.story import LotStory, MadeOfIt
from moldwright.records.stock.used_in import LotUse
from moldwright.told.any_words import moment
from moldwright.told.lot_words import counted_words, shelf_tree
from moldwright.units import show_mass
from moldwright.words.marked import words
from moldwright.words.speaker import say

RECALLED = words(
    "Recalled: it is offered for no cup any more. Look at what was made of it, and tell those who have it:"
)
WRONG = words(
    "wrong lot: the plan takes this part from another material. If another lot was meant, strike the weighing out "
    "in the run's log and write it down anew; if not, look at how that cup cured."
)
LOST = words("lost: it gelled in the cup")
UNMADE = words("Nothing was made of it as far as the log tells.")
PIECE_HEADS = ("edition", "series", "number", "drawn_from_its_mold", "state", "whom", "on", "id")
"""Of the table of pieces, in its order."""


@dataclass(frozen=True, slots=True)
class StoryLine:
    """One thing that is told, and what is to be heeded of it."""

    text: str
    heeds: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class StoryPart:
    """A part of a lot's story: its heading, and what there is to tell."""

    heading: str
    lines: tuple[StoryLine, ...]


def story_parts(story: LotStory, units: str) -> tuple[StoryPart, ...]:
    """What a lot went into, for people; a part of which there is nothing to tell is left out.

    Parameters
    ----------
    story : of the lot.
    units : "metric" or "us".
    """
    unit = story.shelf.lot.unit
    told = (
        (say("counted"), [StoryLine(f"{moment(c.at[0])}  {counted_words(c, unit, units)}") for c in story.counts]),
        (say("went into"), [use_line(use, units) for use in story.uses]),
        (say("molds that it is in"), [StoryLine(short_code(mold)) for mold in story.molds]),
        (say("numbered pieces that it is in"), _pieces(story.pieces, drawn=False)),
        (say("numbered pieces drawn from these molds"), _pieces(story.pieces, drawn=True)),
        (say("stands in a cup still, not poured"), [StoryLine(_cup(use)) for use in story.unpoured]),
    )
    return tuple(StoryPart(heading, tuple(lines)) for heading, lines in told if lines)


def story_lines(story: LotStory, units: str) -> list[str]:
    """The same as lines of a terminal.

    Parameters
    ----------
    story : of the lot.
    units : "metric" or "us".
    """
    lines = []
    for part in story_parts(story, units):
        lines += [f"  {part.heading}", *(each for line in part.lines for each in in_terminal(line))]
    return lines


def in_terminal(line: StoryLine) -> list[str]:
    """A line of a story with what is to be heeded under it.

    Parameters
    ----------
    line : the line.
    """
    return [f"    {line.text}", *(f"      ! {heed}" for heed in line.heeds)]


def _pieces(pieces: Iterable[MadeOfIt], drawn: bool) -> list[StoryLine]:
    return [StoryLine(piece_words(made)) for made in pieces if made.drawn is drawn]


def piece_words(made: MadeOfIt) -> str:
    """A piece that a lot is in: its number, where it is, who has it.

    Parameters
    ----------
    made : of it.
    """
    piece = made.piece
    proof = say("proof ") if piece.series is Series.PROOF else ""
    whom = f", {piece.whom}" if piece.whom else ""
    return f"{made.edition} {proof}{piece.number}: {piece.state.value}{whom}{f', {piece.on}' if piece.on else ''}"


def use_line(use: LotUse, units: str) -> StoryLine:
    """What of a lot went into a cup, and what went wrong there.

    Parameters
    ----------
    use : the part of the cup.
    units : "metric" or "us".
    """
    heeds = [say(LOST)] if use.gelled else []
    heeds += [say(WRONG)] if use.right is False else []
    heeds += [f"{say(problem.what.value)}{f': {problem.text}' if problem.text else ''}" for problem in use.problems]
    text = f"{moment(use.first_ms)}  {show_mass(use.mass_g, units)} as {say(use.part.value)} in {_cup(use)}"
    return StoryLine(text, tuple(heeds))


def _cup(use: LotUse) -> str:
    turn = say("cast {turn}", turn=use.cup.turn) if use.cup.turn else say("mold")
    filling = say(", mixed anew the {filling}. time", filling=use.cup.filling) if use.cup.filling > 1 else ""
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


def piece_cells(story: LotStory) -> list[tuple[str | int, ...]]:
    """The pieces that a lot is in, or that were drawn from its molds, as rows of a table.

    Parameters
    ----------
    story : of the lot.
    """
    return [
        (
            made.edition, made.piece.series.value, made.piece.number, "yes" if made.drawn else "no",
            made.piece.state.value, made.piece.whom, made.piece.on, made.piece.id,
        )
        for made in story.pieces
    ]  # fmt: skip
