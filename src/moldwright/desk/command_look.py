"""`moldwright look`: what a scan is, before anything is planned."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from moldwright.commission.keys import keys
from moldwright.commission.orders import OriginalOrder
from moldwright.commission.values import value_of
from moldwright.desk.look_ways import check_picture, with_ways_drawn
from moldwright.desk.say import say, say_json
from moldwright.desk.stage_bars import stages
from moldwright.disk.whole_file import write_whole
from moldwright.errors import InputRefused
from moldwright.job.look import look
from moldwright.making.order import scan_of
from moldwright.plan.json_text import tree_of
from moldwright.plan.lines import Line
from moldwright.plan.look import Look
from moldwright.plan.original import HoleTreat
from moldwright.sheets.look_picture import Stood, look_picture
from moldwright.sheets.repair_words import repair_text
from moldwright.sheets.wording import Wording, show_value
from moldwright.store.memory import NoStore
from moldwright.text.harmless import harmless
from moldwright.units import show_length, show_volume
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
    picture : a PNG to write of how the piece will stand, or of the ways that it may, where that is not clear.
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
        if picture is not None:
            progress("draw it", 0.0)
            write_whole(picture, look_picture([Stood(looked.mesh, f"{harmless(file.name)} as it will stand")]))
    if as_json:
        say_json(tree_of(looked.found))
    else:
        say(in_words(looked.found))
    return looked.found


def order_of(file: Path, options: Mapping[str, str]) -> OriginalOrder:
    """The options as the commission's [original] would hold them.

    Parameters
    ----------
    file : the scan.
    options : height, unit, up and board as written, "" where left out.
    """
    known = keys()["original"]
    given = {known[name].field: value_of(known[name], _written(name, text)) for name, text in options.items() if text}
    return OriginalOrder(file.name, **given)


def _written(name: str, text: str) -> Any:
    """A direction given as three numbers is a list in a commission."""
    if name == "up" and "," in text:
        try:
            return [float(part) for part in text.strip("[] ").split(",")]
        except ValueError:
            return text
    return text


def in_words(found: Look) -> str:
    """What was found, for a person.

    Parameters
    ----------
    found : the look.
    """
    wide, deep, high = (show_length(size) for size in found.size_mm)
    mouth = found.mouth
    bodies = "1 body" if found.bodies == 1 else f"{found.bodies} bodies"
    loops = "1 loop" if mouth.loops == 1 else f"{mouth.loops} loops"
    area = f"{mouth.area_mm2 / 100:.{0 if mouth.area_mm2 >= 1000 else 1}f} cm²"
    treats = {HoleTreat.DIVIDER: Line("shape.divider"), HoleTreat.STOP: Line("shape.stop")}
    words = Wording(UnitSystem.METRIC)
    rows = [
        ("size", f"{wide} wide, {deep} deep, {high} tall"),
        ("body", f"{show_volume(found.volume_ml)}, {found.area_cm2:.0f} cm²; {found.format.upper()}, {bodies}"),
        ("mesh", f"{found.triangles} triangles, {'closed' if found.watertight else 'open: it is closed by fields'}"),
        ("mouth", f"{area}, narrowest {show_length(mouth.narrowest_mm)}, {loops}"),
        ("undercuts", f"about {show_volume(found.undercut_one_ml)} in one piece drawn up"),
        ("", f"about {show_volume(found.undercut_two_ml)} in two pieces"),
        *(
            ("handle", f"narrowest {show_length(hole.width_mm)}: {words.line(treats[hole.treat])}")
            for hole in found.holes
        ),
        *(("mended", repair_text(repair)) for repair in found.repairs),
        *((said.key, f"{show_value(said.value, said.unit, UnitSystem.METRIC)} ({said.source})") for said in found.said),
    ]
    if mouth.plinth:
        rows.insert(4, ("plinth", f"{show_length(mouth.plinth.height_mm)} high would be planned"))
    return "\n".join([harmless(found.file), *(f"  {name:<10} {text}" for name, text in rows)])
