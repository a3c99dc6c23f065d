"""What no draw frees: a hollow shut in all round, whose place and volume are closed forms; and the refusal of a shell
that tells it."""

from __future__ import annotations

import geometry_bodies as bodies
import numpy as np
import pytest
from mold_splits import parted

from moldwright.errors import NoSafePlan
from moldwright.geometry.directions import upper_directions
from moldwright.geometry.mesh import Mesh
from moldwright.mold.space import coarse_grid, space_about
from moldwright.mold.split import SpaceCut, SplitSettings
from moldwright.mold.splits import Splits
from moldwright.mold.undrawn import Undrawn, largest_undrawn
from moldwright.sheets.place_picture import place_picture
from moldwright.units.system import UnitSystem
from moldwright.ways import Change

RADIUS_MM, HIGH_MM, WIDE_MM, STEP_MM = 15.0, 34.0, 8.0, 2.5
SETTINGS = SplitSettings(tilts_deg=(0, 36))


def hollow(radius_mm: float = RADIUS_MM) -> Mesh:
    """A block, and a ball shut in on the right of its middle; a smaller one beside it."""
    small = bodies.ball(8.0, 64, (-16.0, 0.0, 14.0))
    return bodies.mesh(bodies.box(60, 60, 60) - bodies.ball(radius_mm, 96, (9.0, 0.0, HIGH_MM)) - small)


def undrawn_of(core: Mesh) -> Undrawn | None:
    cut = SpaceCut(space_about(core, WIDE_MM, 0.0, STEP_MM), SETTINGS)
    hidden = np.stack([way.hidden for way in cut.ways(upper_directions(tilts_deg=SETTINGS.tilts_deg))])
    return largest_undrawn(cut.space, hidden)


def test_the_larger_of_two_hollows_is_found_with_its_volume_and_its_height() -> None:
    """4/3 pi 15^3 mm3 = 14.1 ml; a grid of 2.5 mm leaves out the cells along its wall that are mostly body."""
    found = undrawn_of(hollow())
    assert found is not None
    assert found.at == pytest.approx((9.0, 0.0, HIGH_MM), abs=0.3)
    assert found.volume_ml == pytest.approx(4 / 3 * np.pi * RADIUS_MM**3 / 1000, rel=0.12)
    assert found.across_mm == pytest.approx(2 * RADIUS_MM, abs=2 * STEP_MM)


@pytest.mark.parametrize(
    "body", [bodies.box(40, 40, 30), bodies.cone(24, 24, 30, 48) - bodies.cone(9, 9, 80, 48)], ids=["block", "tube"]
)
def test_what_some_draw_frees_is_not_told(body: object) -> None:
    """A tube's bore opens upward; a block hides nothing."""
    assert undrawn_of(bodies.mesh(body)) is None


def splits_without_two(undrawn: Undrawn | None, core: Mesh) -> Splits:
    return Splits((parted(coarse_grid(core, WIDE_MM, 0.0, 6.0)), None), (0.0, 0.0), (0.0, 0.0), undrawn=undrawn)


def refused(undrawn: Undrawn | None, core: Mesh) -> NoSafePlan:
    with pytest.raises(NoSafePlan) as found:
        splits_without_two(undrawn, core).of(2, core)
    assert (found.value.code, found.value.way) == ("no-such-shell", Change("mold.pieces"))
    return found.value


def test_the_refusal_has_the_place_and_its_picture() -> None:
    core = hollow()
    refusal = refused(Undrawn((9.0, 0.0, HIGH_MM), 30.0, 14.1), core)
    assert "about 14 ml, lies 34 mm over the board" in str(refusal.as_dict()["remedy"])
    assert refusal.place is not None
    assert (refusal.place.height_mm, refusal.place.side, refusal.place.across_mm) == (HIGH_MM, "right", 30.0)
    assert place_picture(refusal.place, UnitSystem.METRIC) is not None


def test_where_every_undercut_is_freed_no_place_is_blamed() -> None:
    refusal = refused(None, bodies.mesh(bodies.box(40, 40, 30)))
    assert refusal.place is None
    assert "undercut" not in refusal.remedy


def test_the_undercut_stays_with_splits_whose_order_is_minded() -> None:
    core = bodies.mesh(bodies.box(40, 40, 30))
    found = splits_without_two(Undrawn((0.0, 0.0, 9.0), 8.0, 2.0), core)
    split = found.of(1)
    assert found.with_order(0, split, 0.0, 0.0).undrawn == found.undrawn
