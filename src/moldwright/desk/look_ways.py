"""Where a look is refused because up is not clear: the ways that the piece may stand, drawn side by side."""

from __future__ import annotations

from pathlib import Path

from moldwright.commission.orders import OriginalOrder
from moldwright.disk.whole_file import write_whole
from moldwright.errors import InputRefused
from moldwright.making.filename import check_can_be
from moldwright.making.looking.ways import drawn, ways_to_stand
from moldwright.making.places import real_path
from moldwright.scan.scan import Scan


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
    ways = ways_to_stand(refused, scan, order) if picture is not None else ()
    if picture is None or not ways:
        return refused
    write_whole(picture, drawn(ways))
    shown = "How it would stand is" if len(ways) == 1 else f"The {len(ways)} likeliest ways to stand are"
    remedy = f"{shown} drawn in {picture.name}. {refused.remedy}"
    return InputRefused(refused.code, refused.actual, refused.limit, refused.unit, remedy, refused.way)
