"""The mold as tables, for who sees no solids: what it is made of, where rubber is packed, what lies how thick."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from moldwright.making.screen.packed_parts import ScreenMold
from moldwright.plan.plan import Plan
from moldwright.sheets.seam_words import point_text
from moldwright.told.surfaces.places import draw_words
from moldwright.told.surfaces.quantity import quantities_on_surfaces
from moldwright.units import show_length, show_volume
from moldwright.web.pages.mold.seen_legend import seen_legend
from moldwright.web.words.marked import words


@dataclass(frozen=True, slots=True)
class MoldTable:
    """A table: its title, the heads of its columns, its rows."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def mold_table(plan: Plan, mold: ScreenMold | None) -> tuple[MoldTable, ...]:
    """All tables of a mold.

    Parameters
    ----------
    plan : in the units of who reads.
    mold : its solids for the screen; None where they are not made yet: what is on their surfaces is left out.
    """
    return (_coats(plan), _pieces(plan), *_spots(plan), *(_surfaces(plan, mold) if mold is not None else ()))


def _coats(plan: Plan) -> MoldTable:
    units, glove = plan.units, plan.glove
    coats = [
        (f"{n}, {coat.name}", show_length(coat.thickness_mm, units), show_volume(coat.volume_ml, units))
        for n, coat in enumerate(glove.coats, 1)
    ]
    rest = [
        (words("Flange"), show_length(sum(coat.thickness_mm for coat in glove.coats), units), glove.flange.volume_ml),
        (words("Packed"), "", glove.fill.volume_ml),
    ]
    told = [(name, thick, show_volume(volume, units)) for name, thick, volume in rest]
    return MoldTable(words("Rubber"), (words("Coat"), words("Thickness"), words("Volume")), (*coats, *told))


def _pieces(plan: Plan) -> MoldTable:
    units = plan.units
    rows = [
        (str(n), draw_words(piece.draw), show_volume(piece.volume_ml, units), show_volume(piece.fill_ml, units))
        for n, piece in enumerate(plan.shell.pieces, 1)
    ]
    heads = (words("Shell, first off first"), words("Draw"), words("Volume"), words("Packed on its side"))
    return MoldTable(words("Shell"), heads, tuple(rows))


def _spots(plan: Plan) -> Iterator[MoldTable]:
    units, frame = plan.units, plan.flange.frame
    rows = [
        (
            str(n),
            point_text(spot.at, frame, units),
            show_length(spot.depth_mm, units),
            show_volume(spot.volume_ml, units),
        )
        for n, spot in enumerate(plan.glove.spots, 1)
    ]
    if rows:
        place = words("Right, back and up from the frame's front left corner")
        yield MoldTable(words("Places to pack"), (words("Place"), place, words("Depth"), words("Volume")), tuple(rows))


def _surfaces(plan: Plan, mold: ScreenMold) -> Iterator[MoldTable]:
    for quantity in quantities_on_surfaces():
        part = mold.known_on(quantity.name)
        if part is not None:
            legend, _ = seen_legend(quantity, part, plan)
            leaves = zip(legend.leaves_told(), legend.shares_told, strict=True)
            rows = tuple((f"{limits} {legend.unit}", share) for limits, share in leaves)
            yield MoldTable(quantity.title, (words("From, to"), words("Share of the surface")), rows)
