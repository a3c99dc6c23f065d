"""From what is known of an original to the solid that stands for it, and how well: pure, for the desk to feed."""

from __future__ import annotations

from dataclasses import replace

from moldwright.commission.orders import GapOrder, MoldOrder, OriginalOrder
from moldwright.errors import InputRefused
from moldwright.geometry.mesh import Mesh
from moldwright.original.evidence.measured import displaced, less_gaps, weighed
from moldwright.original.evidence.narrow import Evidence
from moldwright.original.evidence.witness import Witness
from moldwright.photos.photographed import Photographed
from moldwright.plan.known import Known
from moldwright.plan.original import Source
from moldwright.ranges import Range, Spread
from moldwright.scan.scan import Scan
from moldwright.tape.solid import stretched
from moldwright.tape.taped import Taped, taped
from moldwright.units import show_length
from moldwright.ways import Change, figure

UP = (0.0, 0.0, 1.0)
SCAN_SHARE = 0.01
"""Half the range of a scan's volume where its unit and height are right: common practice, no source."""
HEIGHT_SHARE = 0.03
HEIGHT_OFF_MM = 2.0
"""How far the height by photos may be from the told one, the larger of the two: a tip that outlines lose, the dome that
they leave on a level top, a tape held askew; our own."""
FORMLESS = frozenset((Source.WATER, Source.WEIGHT))
"""By these nobody knows a form."""
RECKONED_PIECES = 2
"""In how many pieces a shell is reckoned without a form: common practice, no source."""
TOLD_APART_SHARE = 0.001
"""A volume that others move by less is left as its solid has it: our own."""


def witnesses_of(order: OriginalOrder) -> tuple[Witness, ...]:
    """What water and weight say.

    Parameters
    ----------
    order : the piece to copy.
    """
    water = (displaced(order.displaced_ml),) if order.displaced_ml is not None else ()
    if order.weight_g is None:
        return water
    return (*water, weighed(order.weight_g, order.density_g_ml, order.material, order.weighed_solid))


def refuse_pieces_without_form(mold: MoldOrder, source: Source) -> None:
    """By water or weight alone a shell is reckoned in two pieces: how it splits hangs on the form.

    Parameters
    ----------
    mold : the order's.
    source : what the original is known by.

    Raises InputRefused ("pieces-without-form").
    """
    if source in FORMLESS and mold.pieces not in (None, RECKONED_PIECES):
        remedy = "Give a scan, photos or tape measures to plan another number, or let it be reckoned in two"
        way = Change("mold.pieces", RECKONED_PIECES)
        raise InputRefused("pieces-without-form", mold.pieces, RECKONED_PIECES, "pieces", remedy, way)


def by_scan(volume_ml: float, area_mm2: float) -> Witness:
    """What a scan says, stood on the board.

    Parameters
    ----------
    volume_ml, area_mm2 : of its solid.
    """
    return Witness(Source.SCAN, Range.about(volume_ml, SCAN_SHARE), Range.about(area_mm2 / 100.0, SCAN_SHARE))


def by_photos(found: Photographed, order: OriginalOrder) -> tuple[Witness, ...]:
    """What photos say, and what the gaps that the maker told leave of their hull.

    Parameters
    ----------
    found : the piece as its photos show it.
    order : with the gaps.
    """
    area = found.spread.area * (found.mesh.area_mm2 / 100.0)
    seen = Witness(Source.PHOTOS, found.photos_ml, area)
    return (seen, less_gaps(found.hull_ml, order.gaps)) if order.gaps else (seen,)


def refuse_other_height(tall_mm: float, order: OriginalOrder) -> None:
    """Nothing, where photos and the told height agree or no height was told; else the bar is asked for.

    Parameters
    ----------
    tall_mm : of the photos' solid [mm].
    order : with the height and the bar.

    Raises InputRefused ("height-disagrees"). Source: our own.
    """
    told_mm = order.height_mm
    if told_mm is None or abs(tall_mm - told_mm) <= max(HEIGHT_SHARE * told_mm, HEIGHT_OFF_MM):
        return
    bar = show_length(order.bar_on_print_mm * told_mm / tall_mm, step_mm=0.1)
    raise InputRefused(
        "height-disagrees",
        f"{figure(round(tall_mm, 1), 'mm')} tall by the photos, {figure(round(told_mm, 1), 'mm')} as told",
        f"within {HEIGHT_SHARE:.0%}",
        "",
        "Measure the height again, from the board to the very top, and the sheet's bar on your print, whether it is so",
        Change("original.bar", bar),
    )


def tape_of(order: OriginalOrder) -> Taped:
    """The piece as its tape tells it.

    Parameters
    ----------
    order : with a tape.
    """
    if order.tape is None:
        raise TypeError("an order without a tape")
    bowls = (GapOrder(one.name, one.depth_mm, one.width_mm) for one in order.bowls if one.depth_mm and one.width_mm)
    return taped(order.tape, order.height_mm, (*order.gaps, *bowls))


def by_tape(found: Taped) -> Witness:
    """What a tape says.

    Parameters
    ----------
    found : the piece as its tape tells it.
    """
    return Witness(Source.TAPE, found.volume_ml, found.area_cm2, found.area_slope)


def tape_solid(found: Taped, volume_ml: float) -> Scan:
    """The tape's solid with the likely volume of all sources, as a scan.

    Parameters
    ----------
    found : the piece as its tape tells it.
    volume_ml : the likely one.
    """
    return solid_as_scan(stretched(found.mesh, volume_ml * 1000.0))


def photo_solid(found: Photographed) -> Scan:
    """The photos' solid as a scan.

    Parameters
    ----------
    found : the piece as its photos show it.
    """
    return solid_as_scan(found.mesh)


def solid_as_scan(mesh: Mesh) -> Scan:
    """A solid of ours in the shape that every later stage takes: in millimeters, z up.

    Parameters
    ----------
    mesh : closed, on the board z = 0 [mm].
    """
    return Scan(mesh, "mm", UP, 1, "solid", (), True)


def as_made(order: OriginalOrder) -> OriginalOrder:
    """The order for a solid of ours, whose size, up and board are its own.

    Parameters
    ----------
    order : the maker's.
    """
    return replace(order, height_mm=None, unit=None, up=None, board_mm=0.0)


def moved(volume_ml: float, evidence: Evidence) -> bool:
    """Whether all sources together put the likely volume elsewhere than a solid has it.

    Parameters
    ----------
    volume_ml : of the solid.
    evidence : of all sources.
    """
    return abs(evidence.volume_ml.likely / volume_ml - 1.0) > TOLD_APART_SHARE


def known_by(evidence: Evidence, solid: Mesh, rubber: Range) -> Known:
    """How well the solid stands for the original.

    Parameters
    ----------
    evidence : of all sources, that of the solid's form first.
    solid : with the likely volume.
    rubber : factor on the rubber laid on it, as its own source says.
    """
    area = evidence.area_cm2 or Range.exactly(solid.area_mm2 / 100.0)
    first, *others = evidence.sources
    spread = Spread(evidence.volume_ml * (1.0 / evidence.volume_ml.likely), area * (100.0 / solid.area_mm2), rubber)
    return Known(first, tuple(others), spread)
