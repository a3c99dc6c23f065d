"""What a scan is, before anything is planned: how it is asked to stand, its figures, and its picture."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from moldwright.commission.keys import keys
from moldwright.commission.orders import OriginalOrder
from moldwright.commission.values import value_of
from moldwright.job.look import Looked
from moldwright.plan.lines import Line
from moldwright.plan.look import Look
from moldwright.plan.original import HoleTreat
from moldwright.sheets.look_picture import Stood, look_picture
from moldwright.sheets.repair_words import repair_text
from moldwright.sheets.wording import Wording, show_area, show_value
from moldwright.text.harmless import harmless
from moldwright.units import show_length, show_volume
from moldwright.units.system import UnitSystem

Rows = list[tuple[str, str]]


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


def picture_of(looked: Looked) -> bytes:
    """PNG bytes of how the piece will stand.

    Parameters
    ----------
    looked : what was found of its scan.
    """
    return look_picture([Stood(looked.mesh, f"{harmless(looked.found.file)} as it will stand")])


def figures(found: Look, units: UnitSystem) -> Rows:
    """What was found, each figure with its name; "" for one that goes on with the name before.

    Parameters
    ----------
    found : the look.
    units : of lengths, areas and volumes.
    """
    wide, deep, high = (show_length(size, units) for size in found.size_mm)
    undercut = show_volume(found.undercut_one_ml, units), show_volume(found.undercut_two_ml, units)
    return [
        ("size", f"{wide} wide, {deep} deep, {high} tall"),
        *_body(found, units),
        *_mouth(found, units),
        ("undercuts", f"about {undercut[0]} in one piece drawn up"),
        ("", f"about {undercut[1]} in two pieces"),
        *_handles(found, units),
        *(("mended", repair_text(repair)) for repair in found.repairs),
        *((said.key, f"{show_value(said.value, said.unit, units)} ({said.source})") for said in found.said),
    ]


def _body(found: Look, units: UnitSystem) -> Rows:
    bodies = "1 body" if found.bodies == 1 else f"{found.bodies} bodies"
    body = f"{show_volume(found.volume_ml, units)}, {_area(found.area_cm2, 0, units)}"
    closed = "closed" if found.watertight else "open: it is closed by fields"
    return [
        ("body", f"{body}; {found.format.upper()}, {bodies}"),
        ("mesh", f"{found.triangles} triangles, {closed}"),
    ]


def _mouth(found: Look, units: UnitSystem) -> Rows:
    mouth = found.mouth
    loops = "1 loop" if mouth.loops == 1 else f"{mouth.loops} loops"
    area = _area(mouth.area_mm2 / 100, 0 if mouth.area_mm2 >= 1000 else 1, units)
    told = [("mouth", f"{area}, narrowest {show_length(mouth.narrowest_mm, units)}, {loops}")]
    if mouth.plinth:
        told.append(("plinth", f"{show_length(mouth.plinth.height_mm, units)} high would be planned"))
    return told


def _handles(found: Look, units: UnitSystem) -> Rows:
    treats = {HoleTreat.DIVIDER: Line("shape.divider"), HoleTreat.STOP: Line("shape.stop")}
    words = Wording(units)
    return [
        ("handle", f"narrowest {show_length(hole.width_mm, units)}: {words.line(treats[hole.treat])}")
        for hole in found.holes
    ]


def _area(area_cm2: float, digits: int, units: UnitSystem) -> str:
    return show_area(area_cm2 * 100, units) if units is UnitSystem.US else f"{area_cm2:.{digits}f} cm²"
