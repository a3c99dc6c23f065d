"""`moldwright look`: what a scan is, before anything is planned."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from moldwright.desk.look_ways import check_picture, with_ways_drawn
from moldwright.desk.say import say, say_json
from moldwright.desk.stage_bars import stages
from moldwright.disk.whole_file import write_whole
from moldwright.errors import InputRefused, NoSafePlan
from moldwright.job.look import look
from moldwright.making.looking.scan import figures, order_of, picture_of
from moldwright.making.order import scan_of
from moldwright.making.refused import refused_png
from moldwright.plan.json_text import tree_of
from moldwright.plan.look import Look
from moldwright.store.memory import NoStore
from moldwright.text.harmless import harmless
from moldwright.units.system import UnitSystem


def run_look(
    file: Path, options: Mapping[str, str], as_json: bool = False, quiet: bool = False, picture: Path | None = None
) -> Look:
    """Look at a scan and print what was found.

    Parameters
    ----------
    file : the scan.
    options : height, unit, up and board as written, "" where left out.
    as_json : print one JSON object.
    quiet : do not tell the stages.
    picture : a PNG to write of how the piece will stand, or of the ways that it may, where that is not clear; of the
        place where no mold can be made of it.
    """
    order = order_of(file, options)
    if picture is not None:
        check_picture(picture, file)
    with stages(quiet or as_json) as progress:
        progress("reading the scan", 0.0)
        scan = scan_of(file, NoStore()).value
        try:
            looked = look(scan, order, progress)
        except InputRefused as refused:
            raise with_ways_drawn(refused, scan, order, picture) from None
        except NoSafePlan as refused:
            _draw(refused, picture)
            raise
        if picture is not None:
            progress("draw it", 0.0)
            write_whole(picture, picture_of(looked))
    if as_json:
        say_json(tree_of(looked.found))
    else:
        say(in_words(looked.found))
    return looked.found


def _draw(refused: NoSafePlan, picture: Path | None) -> None:
    """The place that makes a mold impossible, into the picture that was asked for."""
    png = refused_png(refused, UnitSystem.METRIC) if picture is not None else None
    if picture is not None and png is not None:
        write_whole(picture, png)
        refused.picture = str(picture)


def in_words(found: Look) -> str:
    """What was found, for a person.

    Parameters
    ----------
    found : the look.
    """
    rows = figures(found, UnitSystem.METRIC)
    return "\n".join([harmless(found.file), *(f"  {name:<10} {text}" for name, text in rows)])
