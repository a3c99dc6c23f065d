"""Sound files that ask for far more work than their size tells are read and placed within bounds, or refused.

Each case is bounded by work, not by a clock: what once took minutes is done in seconds, and the limits of the reading
child (`Limits`) end whatever is slower still.
"""

from __future__ import annotations

import numpy as np
import pytest
from strangers import instances, many_bodies, nested, random_triangles, sheets

from moldwright.errors import InputRefused
from moldwright.original.standing.place import place
from moldwright.scan import Limits, Scan
from moldwright.scan.parse import parse


def placed_or_refused(scan: Scan, **given: object) -> str:
    try:
        mesh = place(scan, **given).mesh  # type: ignore[arg-type]
    except InputRefused as refused:
        return refused.code
    return "" if np.isfinite(mesh.vertices).all() else "not finite"


def test_thousands_of_instances_are_laid_out() -> None:
    scan = parse("a.glb", instances(20_000), Limits())
    assert (scan.bodies, len(scan.mesh.faces)) == (20_000, 240_000)
    assert scan.mesh.volume_mm3 == pytest.approx(20_000 * 0.02 * 0.03 * 0.04, rel=1e-3)
    assert placed_or_refused(scan) == ""


def test_instances_past_the_limit_are_refused_before_they_are_laid_out() -> None:
    with pytest.raises(InputRefused) as caught:
        parse("a.glb", instances(20_000), Limits(triangles=239_999))
    assert (caught.value.code, caught.value.actual) == ("too-many-triangles", 240_000)


def test_random_triangles_are_placed_or_refused() -> None:
    scan = parse("a.stl", random_triangles(20_000), Limits())
    assert scan.bodies == 20_000
    assert placed_or_refused(scan, height_mm=100.0, up="+z") == ""


@pytest.mark.parametrize("count", [128, 256, 260])
def test_nested_bodies_and_sheets_are_all_kept(count: int) -> None:
    """A sphere inside a sphere is no hollow while both are wound outward; equal sheets are one."""
    scan = parse("a.off", nested(count), Limits())
    assert scan.bodies == count
    assert placed_or_refused(scan, height_mm=100.0, up="+z") == ""
    assert len(parse("a.off", sheets(count), Limits()).mesh.faces) == 192
    assert len(parse("a.off", sheets(count, 1e-4), Limits()).mesh.faces) == 192 * count


def test_thousands_of_bodies_are_mostly_crumbs() -> None:
    scan = parse("a.stl", many_bodies(5000), Limits())
    assert scan.bodies == 5001
    assert placed_or_refused(scan, height_mm=100.0, up="+z") == ""
    assert placed_or_refused(parse("a.stl", many_bodies(20_000), Limits()), height_mm=100.0) == "scan-in-crumbs"
