"""Where a look is refused because up is not clear: the ways that the piece may stand, drawn side by side."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from moldwright.commission.orders import OriginalOrder
from moldwright.disk.whole_file import write_whole
from moldwright.errors import InputRefused
from moldwright.making.filename import check_can_be
from moldwright.making.places import real_path
from moldwright.original.standing.candidates import candidates
from moldwright.original.standing.direction import direction_of, name_of
from moldwright.original.standing.file_units import SIZE_UNCLEAR
from moldwright.original.standing.opening import LARGE_HOLE
from moldwright.original.standing.place import place
from moldwright.original.standing.upright import UP_UNCLEAR
from moldwright.scan.scan import Scan
from moldwright.sheets.look_picture import Stood, look_picture

DRAWN = (UP_UNCLEAR, LARGE_HOLE, SIZE_UNCLEAR)
ANY_HEIGHT_MM = 100.0


def check_picture(picture: Path, scan: Path) -> None:
    """Refuse a name that no picture should have, before any work is done.

    Parameters
    ----------
    picture : the file to write.
    scan : the file that is looked at.
    """
    if picture.suffix.lower() != ".png":
        raise InputRefused("picture-no-png", picture.name, "a name that ends in .png", "", "Name it as in look.png.")
    check_can_be(picture)
    if real_path(picture) == real_path(scan):
        raise InputRefused("picture-is-scan", str(picture), "another file", "", "Give the picture a name of its own.")


def with_ways_drawn(refused: InputRefused, scan: Scan, order: OriginalOrder, picture: Path | None) -> InputRefused:
    """The refusal as it is, or telling where the ways to stand were drawn.

    Parameters
    ----------
    refused : why the look was refused.
    scan : what was read.
    order : how the maker wants it to stand.
    picture : the PNG to write, None for none.
    """
    if picture is None or refused.code not in DRAWN:
        return refused
    ways = list(_ways(scan, order))
    if not ways:
        return refused
    write_whole(picture, look_picture(ways))
    shown = "How it would stand is" if len(ways) == 1 else f"The {len(ways)} likeliest ways to stand are"
    remedy = f"{refused.remedy} {shown} drawn in {picture.name}."
    return InputRefused(refused.code, refused.actual, refused.limit, refused.unit, remedy)


def _ways(scan: Scan, order: OriginalOrder) -> Iterator[Stood]:
    """Each way to stand that can be drawn; in no known unit where nothing tells the size."""
    sized = bool(order.height_mm or order.unit or scan.unit)
    height = order.height_mm if sized else ANY_HEIGHT_MM
    told = (direction_of(order.up),) if order.up else candidates(scan)
    for way in told:
        x, y, z = (float(part) for part in way)
        try:
            placed = place(scan, height, order.unit, (x, y, z), order.board_mm if sized else None)
        except InputRefused:
            continue
        yield Stood(placed.mesh, f"up = {name_of(way)}", sized)
