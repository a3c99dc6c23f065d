"""What is known of an original, put together: the solid's volume, its factors, and what is refused."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import numpy as np
import pytest

from moldwright.commission.orders import LevelOrder, OriginalOrder, TapeOrder
from moldwright.errors import InputRefused
from moldwright.geometry.section_shape import SectionShape
from moldwright.job import sources
from moldwright.original.evidence.narrow import together
from moldwright.plan.original import Source
from moldwright.ranges import Range
from moldwright.units.read_off import ReadOff
from moldwright.ways import Change

LEVELS = tuple(LevelOrder(at, 2 * pi * 50.0, 100.0, 100.0) for at in (0.0, 40.0, 80.0, 120.0, 160.0))
ROUND = TapeOrder(LEVELS, SectionShape.ROUND)
CYLINDER_ML = pi * 50.0**2 * 160.0 / 1000.0
"""V = pi r^2 h."""
TAPED = OriginalOrder(tape=ROUND)


def test_water_that_agrees_narrows_and_the_solid_has_its_volume() -> None:
    found = sources.tape_of(TAPED)
    alone = together((sources.by_tape(found),))
    order = replace(TAPED, displaced_ml=ReadOff(CYLINDER_ML, 1.0))
    both = together((sources.by_tape(found), *sources.witnesses_of(order)))
    assert both.sources == (Source.TAPE, Source.WATER)
    assert both.volume_ml.high - both.volume_ml.low < alone.volume_ml.high - alone.volume_ml.low
    assert both.volume_ml.low < CYLINDER_ML < both.volume_ml.high
    solid = sources.tape_solid(found, both.volume_ml.likely).mesh
    assert solid.volume_ml == pytest.approx(both.volume_ml.likely, rel=1e-6)
    known = sources.known_by(both, solid, Range.exactly(1.0))
    assert known.spread.volume.likely == pytest.approx(1.0)
    assert known.spread.area.likely * solid.area_mm2 / 100 == pytest.approx(
        both.area_cm2.likely if both.area_cm2 else 0
    )
    assert (known.source, known.also) == (Source.TAPE, (Source.WATER,))


def test_a_scan_in_inches_is_told_from_the_water() -> None:
    """A unit mistaken by 25.4 is a volume mistaken by 25.4^3."""
    order = OriginalOrder("a.stl", displaced_ml=ReadOff(1000.0, 10.0))
    scan = sources.by_scan(1000.0 / 25.4**3, 60_000.0 / 25.4**2)
    with pytest.raises(InputRefused) as refused:
        together((scan, *sources.witnesses_of(order)))
    assert "25.4" in refused.value.remedy


def test_a_wrong_bar_is_told_from_the_height() -> None:
    """A bar of 96 mm that was taken for 100 makes a piece of 160 mm 166.7 mm tall."""
    told = OriginalOrder(photos="p", height_mm=160.0)
    sources.refuse_other_height(162.0, told)
    sources.refuse_other_height(300.0, replace(told, height_mm=None))
    sources.refuse_other_height(40.0, replace(told, height_mm=38.2))
    with pytest.raises(InputRefused) as refused:
        sources.refuse_other_height(160.0 / 0.96, told)
    assert refused.value.code == "height-disagrees"
    assert refused.value.way in (Change("original.bar", "96.0 mm"), Change("original.bar", "96 mm"))


def test_a_solid_of_ours_stands_as_it_was_made() -> None:
    order = sources.as_made(replace(TAPED, height_mm=160.0, up="+y"))
    assert (order.height_mm, order.unit, order.up, order.board_mm) == (None, None, None, 0.0)
    scan = sources.solid_as_scan(sources.tape_of(TAPED).mesh)
    assert (scan.unit, scan.up) == ("mm", (0.0, 0.0, 1.0))
    assert np.isclose(scan.mesh.bounds_mm[0][2], 0.0)
