"""What a remedy leads to, as a page says it: a field by its label, a place by its name and address."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.ways import Change, Deed, Way
from moldwright.web.words.marked import Words, words
from moldwright.web.words.named import called, in_page_words
from moldwright.words.speaker import say

TODAY, SHELF, RECIPES, EDITIONS = words("Today"), words("Shelf"), words("Recipes"), words("Editions")
PLACES: dict[Deed, tuple[Words, str]] = {
    Deed.SEE_MATERIALS: (words("Materials"), "/materials"),
    Deed.SEE_PIECES: (TODAY, "/"),
    Deed.SEE_RUNS: (words("Bench"), "/bench"),
    Deed.SEE_LOTS: (SHELF, "/shelf"),
    Deed.SEE_MOLDS: (words("Molds"), "/molds"),
    Deed.SEE_EDITIONS: (EDITIONS, "/editions"),
    Deed.SEE_NUMBERS: (EDITIONS, "/editions"),
    Deed.SEE_RECIPES: (RECIPES, "/recipes"),
    Deed.SEE_LABEL_SHEETS: (words("Labels"), "/labels"),
    Deed.ADD_LOT: (words("Add a lot"), "/shelf/add"),
    Deed.KEEP_RECIPE: (RECIPES, "/recipes"),
    Deed.CHANGE_PIECE: (TODAY, "/"),
    Deed.BEGIN_RUN: (TODAY, "/"),
    Deed.END_RUN: (words("Bench"), "/bench"),
    Deed.GIVE_NUMBER: (EDITIONS, "/editions"),
    Deed.VOID_NUMBER: (EDITIONS, "/editions"),
    Deed.BRING_BACK: (EDITIONS, "/editions"),
    Deed.CHECK_SHOP: (words("Shop"), "/shop"),
    Deed.LOOK_AT_PHOTOS: (words("Take in"), "/take-in"),
    Deed.PRINT_PHOTO_SHEET: (words("Take in"), "/take-in"),
}
"""Where each deed is done. One that is not here is done where the refusal stands: its log, its list of choices."""


@dataclass(frozen=True, slots=True)
class WayOnPage:
    """A way on a page.

    Parameters
    ----------
    words : of the link or the button.
    path : where a link leads, "" where there is none.
    key, to : of the commission, what may be written there; "" where it is no change, or one chooses oneself.
    """

    words: str = ""
    path: str = ""
    key: str = ""
    to: str | int = ""


def way_shown(way: Way | None) -> WayOnPage:
    """A way as a page shows it, in the reader's words.

    Parameters
    ----------
    way : what a remedy leads to.

    >>> way_shown(Deed.ADD_LOT).path, way_shown(Change("mold.flange", "12 mm")).words
    ('/shelf/add', 'Flange round the base: 12 mm')
    """
    match way:
        case Deed() if way in PLACES:
            name, path = PLACES[way]
            return WayOnPage(say(name), path)
        case Change(key, to):
            return WayOnPage(": ".join(filter(None, (called(key), str(to)))), "", key, to)
        case _:
            return WayOnPage()


def remedy_said(remedy: str, way: Way | None) -> str:
    """A remedy as a sentence of a page; what it leads to stands beside it.

    Parameters
    ----------
    remedy : of a refusal.
    way : what it leads to.

    >>> remedy_said("The keys need room", Change("mold.flange", "12 mm")), remedy_said("Try again.", None)
    ('The keys need room (Flange round the base: 12 mm).', 'Try again.')
    """
    told = in_page_words(remedy)
    if way is None:
        return told
    shown = way_shown(way)
    return f"{told} ({shown.words})." if shown.key and shown.words else f"{told}."
