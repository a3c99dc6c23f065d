"""From a sound scan to one closed solid on the board: its own surface, its step."""

from __future__ import annotations

import geometry_bodies as bodies
import pytest
from original_stands import STUMP_ML, dome, furthest_mm, standing

from moldwright.original.mending.solid import step_for


def test_a_sound_scan_needs_no_mending() -> None:
    """Its volume is manifold3d's within 0.3 %: edges are cut off by up to a step of 0.5 mm."""
    found = standing(bodies.stump())
    assert found.repairs == ()
    assert found.was_closed
    assert found.mesh.volume_ml == pytest.approx(STUMP_ML, rel=0.003)
    low, high = found.mesh.bounds_mm
    assert low[:2] == pytest.approx(-high[:2], abs=0.02)
    assert high[2] == pytest.approx(50.0, abs=0.02)


@pytest.mark.parametrize("size", [20.0, 60.0, 100.0, 250.0, 600.0])
def test_the_step_is_what_the_issue_asks(size: float) -> None:
    """At most 1 mm up to 250 mm, size / 100 under 40 mm."""
    step = step_for(size)
    assert step <= (1.0 if size <= 250 else size / 100)
    if size <= 40:
        assert step == pytest.approx(size / 100)


def test_a_small_original_is_sampled_finer() -> None:
    """20 mm: a step of 0.2 mm keeps a groove of 0.8 mm."""
    body = bodies.cone(6, 6, 20, 48) - (bodies.cone(9, 9, 0.8, 48) - bodies.cone(5, 5, 0.8, 48)).translate((0, 0, 12))
    found = standing(bodies.mesh(body))
    assert found.step_mm == pytest.approx(0.2)
    assert found.mesh.volume_mm3 == pytest.approx(body.volume(), rel=0.005)


def test_a_sound_scan_keeps_its_own_surface() -> None:
    """Edges stay sharp; a foot that was set on the board counts as moved."""
    found = standing(dome())
    assert found.exact
    assert furthest_mm(found, dome()) <= found.error_mm
    box = bodies.mesh(bodies.box(30, 40, 50))
    found = standing(box)
    assert found.exact
    assert furthest_mm(found, box) <= found.error_mm < 0.06 * found.step_mm
    assert found.mesh.volume_mm3 == pytest.approx(60_000, rel=1e-5)


def test_a_thin_plate_keeps_its_thickness() -> None:
    """2 mm thick, step 0.6 mm: both faces are planes, so the volume is right but for the edges (1 %)."""
    found = standing(bodies.mesh(bodies.box(50, 2, 60)))
    assert found.mesh.volume_mm3 == pytest.approx(6000, rel=0.01)
    low, high = found.mesh.bounds_mm
    assert float((high - low)[1]) == pytest.approx(2.0, abs=0.01)
