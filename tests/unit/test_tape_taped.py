"""Bodies of known volume, measured exactly, become closed solids with ranges that hold what they are (closed forms)."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
import trimesh
from scipy.special import ellipe

from moldwright.commission.orders import GapOrder, LevelOrder, LimbOrder, LimbSide, TapeOrder
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.section_shape import Hollows, SectionShape
from moldwright.tape.taped import Taped, taped

Sizes = Callable[[float], tuple[float, float]]


def ellipse_mm(wide: float, deep: float) -> float:
    a, c = max(wide, deep) / 2, min(wide, deep) / 2
    return float(4 * a * ellipe(1 - (c / a) ** 2)) if a > 0 else 0.0


def stack(at: list[float], sizes: Sizes, girth: Callable[[float, float], float], calipers: bool = True) -> TapeOrder:
    levels = []
    for z in at:
        wide, deep = sizes(z)
        levels.append(LevelOrder(z, girth(wide, deep), *((wide, deep) if calipers and wide > 1 else ())))
    shape = SectionShape.OVAL if girth is ellipse_mm else SectionShape.BOXY
    return TapeOrder(tuple(levels), shape, hollows=Hollows.NONE)


EVEN = [0.0, 30.0, 60.0, 90.0, 120.0, 150.0]
CYLINDER = stack(EVEN, lambda z: (80.0, 80.0), ellipse_mm)
CONE = stack([*EVEN[:5], 140.0, 150.0], lambda z: (100.0 * (1 - z / 150), 100.0 * (1 - z / 150)), ellipse_mm)
BOX = stack(EVEN, lambda z: (110.0, 70.0), lambda w, d: 2 * (w + d))


def dome(z: float) -> tuple[float, float]:
    """Upper half of an ellipsoid, 120 x 80 wide, 150 mm high."""
    share = np.sqrt(max(1 - (z / 150) ** 2, 0.0))
    return 120.0 * share, 80.0 * share


DOME = stack([*EVEN[:5], 140.0, 147.0, 150.0], dome, ellipse_mm)
BODIES = {
    "cylinder": (CYLINDER, np.pi * 1600 * 150, np.pi * 80 * 150 + 2 * np.pi * 1600),
    "cone": (CONE, np.pi * 2500 * 50, np.pi * 50 * np.hypot(50, 150) + np.pi * 2500),
    "box": (BOX, 110 * 70 * 150, 2 * (110 * 70 + 150 * 180)),
    "dome": (DOME, 2 / 3 * np.pi * 60 * 40 * 150, None),
}


def solid(mesh: Mesh) -> trimesh.Trimesh:
    return trimesh.Trimesh(mesh.vertices, mesh.faces)


def holds(found: Taped, volume_mm3: float) -> bool:
    return found.volume_ml.low <= volume_mm3 / 1000 <= found.volume_ml.high


@pytest.mark.parametrize("name", BODIES)
def test_a_plain_body_measured_exactly_is_found(name: str) -> None:
    """pi r^2 h; pi r^2 h / 3; a b h; 2/3 pi a b h; side of a cone pi r s."""
    tape, volume, area = BODIES[name]
    found = taped(tape)
    assert holds(found, volume)
    assert found.volume_ml.likely == pytest.approx(volume / 1000, rel=0.02)
    if area is not None:
        assert found.area_cm2.low <= area / 100 <= found.area_cm2.high
        assert found.area_cm2.likely == pytest.approx(area / 100, rel=0.03)


@pytest.mark.parametrize("name", BODIES)
def test_the_solid_is_closed_stands_on_the_board_and_holds_the_likely_volume(name: str) -> None:
    """By trimesh as reference library."""
    found = taped(BODIES[name][0])
    mesh = solid(found.mesh)
    assert mesh.is_volume
    assert mesh.body_count == 1
    assert mesh.bounds[0, 2] == pytest.approx(0.0, abs=1e-6)
    assert mesh.bounds[1, 2] == pytest.approx(150.0, abs=1.0)
    assert mesh.volume / 1000 == pytest.approx(found.volume_ml.likely, rel=1e-6)
    assert found.spread.volume.likely == pytest.approx(1.0)
    assert found.area_cm2.likely == pytest.approx(found.spread.area.likely * mesh.area / 100, rel=1e-6)


def test_a_bore_that_nobody_told_is_possible_in_a_turned_form_too() -> None:
    told, untold = taped(CYLINDER), taped(replace(CYLINDER, hollows=None))
    assert told.volume_ml.high / told.volume_ml.low < 1.15 < untold.volume_ml.high / untold.volume_ml.low


@pytest.mark.parametrize("calipers", [True, False])
def test_girths_alone_leave_more_in_doubt(calipers: bool) -> None:
    found = taped(stack(EVEN, lambda z: (95.0, 75.0), ellipse_mm, calipers))
    volume = np.pi / 4 * 95 * 75 * 150
    assert holds(found, volume)
    share = (found.volume_ml.high - found.volume_ml.low) / 2 / found.volume_ml.likely
    assert (share < 0.06) is calipers


def test_a_modeled_form_is_not_taken_for_a_turned_one() -> None:
    """Proportions that change from level to level leave the hollows that a tape spans to be reckoned with."""
    sizes = ((100, 80), (90, 95), (110, 70), (85, 85), (95, 60), (70, 75))
    tape = TapeOrder(tuple(LevelOrder(30.0 * n, ellipse_mm(w, d), w, d) for n, (w, d) in enumerate(sizes)))
    found = taped(tape)
    full = np.trapezoid([w * d for w, d in sizes], dx=30.0) * np.pi / 4 / 1000
    assert found.volume_ml.likely < 0.95 * full
    assert (found.volume_ml.high - found.volume_ml.low) / 2 / found.volume_ml.likely > 0.09


def test_no_solid_holds_more_than_its_girths_could() -> None:
    """Isoperimetric: no section of girth g is larger than g^2 / 4 pi; what the tape spans only lessens it."""
    girths = [300.0, 320.0, 250.0, 280.0, 120.0]
    tape = TapeOrder(tuple(LevelOrder(30.0 * n, g) for n, g in enumerate(girths)))
    found = taped(tape)
    most = np.trapezoid(np.square(np.maximum.accumulate(girths[::-1])[::-1]), dx=30.0) / (4 * np.pi) / 1000
    assert found.volume_ml.likely < most
    assert found.volume_ml.high < 1.1 * most


def test_a_rounded_top_goes_to_the_height_that_was_told() -> None:
    found = taped(TapeOrder(CYLINDER.levels[:5], CYLINDER.shape), 150.0)
    assert float(found.mesh.bounds_mm[1][2]) == pytest.approx(150.0, abs=0.5)
    low, high = np.pi * 1600 * 120 / 1000, np.pi * 1600 * 150 / 1000
    assert low < found.volume_ml.likely < high


def test_what_the_tape_spans_lessens_what_is_there() -> None:
    read = ((0, 320, 120, 80), (40, 300, 90, 100), (80, 260, 95, 60), (120, 280, 80, 95), (150, 150, 50, 40))
    wavy = [LevelOrder(*map(float, row)) for row in read]
    told = {h: taped(TapeOrder(tuple(wavy), SectionShape.OVAL, hollows=h)) for h in (*Hollows, None)}
    likely = {h: found.volume_ml.likely for h, found in told.items()}
    wide = {h: (found.volume_ml.high - found.volume_ml.low) / likely[h] for h, found in told.items()}
    assert likely[Hollows.NONE] > likely[Hollows.SOME] > likely[Hollows.DEEP]
    assert wide[None] > wide[Hollows.SOME] > wide[Hollows.NONE]


def test_a_bore_that_is_told_is_taken_away() -> None:
    """A cylinder of radius 40 mm with a bore of 30 x 150 mm: 648 ml of 754."""
    found = taped(CYLINDER, 150.0, (GapOrder("bore", 150.0, 30.0),))
    assert holds(found, np.pi * (1600 - 225) * 150)
    assert found.volume_ml.likely < taped(CYLINDER, 150.0).volume_ml.likely


ARM = (LevelOrder(0.0, 60.0), LevelOrder(40.0, 55.0), LevelOrder(80.0, 60.0))


def test_an_arm_akimbo_leaves_a_hole_to_see_through() -> None:
    """Euler characteristic by trimesh: 2 for a body without a hole, 0 with one; the limb adds about its own volume."""
    bare = taped(CYLINDER, 150.0)
    arm = LimbOrder("arm", 110.0, ARM, 50.0, 20.0, LimbSide.LEFT)
    found = taped(TapeOrder(CYLINDER.levels, CYLINDER.shape, (arm,), CYLINDER.hollows), 150.0)
    assert (solid(bare.mesh).euler_number, solid(found.mesh).euler_number) == (2, 0)
    more = found.volume_ml.likely - bare.volume_ml.likely
    assert more == pytest.approx(80 * 58**2 / (4 * np.pi) / 1000, rel=0.25)
    front = next(one for one in found.drawn.outlines if one.facing == "front")
    assert len(front.rings) == 2
    assert float(found.mesh.vertices[:, 0].min()) < -40 - 15


@pytest.mark.parametrize(("side", "axis", "way"), [("left", 0, -1), ("right", 0, 1), ("front", 1, -1), ("back", 1, 1)])
def test_a_limb_stands_off_where_it_was_told(side: str, axis: int, way: int) -> None:
    limb = LimbOrder("horn", 100.0, (*ARM[:2], LevelOrder(70.0, 0.0)), side=LimbSide(side))
    mesh = taped(TapeOrder(CYLINDER.levels, CYLINDER.shape, (limb,)), 150.0).mesh
    assert way * (mesh.vertices[:, axis] * way).max() * way > 85


def test_a_body_stands_on_its_legs() -> None:
    legs = LimbOrder("legs", 60.0, (LevelOrder(0.0, 70.0), LevelOrder(60.0, 60.0)), 0.0, count=4)
    body = tuple(LevelOrder(at, 300.0, 120.0, 65.0) for at in (60.0, 90.0, 120.0))
    found = taped(TapeOrder(body, SectionShape.OVAL, (legs,)), 130.0)
    mesh = solid(found.mesh)
    assert mesh.is_volume
    assert mesh.bounds[0, 2] == pytest.approx(0.0, abs=1e-6)
    foot = mesh.section(plane_origin=[0, 0, 20], plane_normal=[0, 0, 1])
    assert len(foot.discrete) == 4


def test_limbs_without_a_side_take_one_after_the_other() -> None:
    limbs = tuple(LimbOrder(name, 100.0, (*ARM[:2], LevelOrder(70.0, 0.0))) for name in "ab")
    mesh = taped(TapeOrder(CYLINDER.levels, CYLINDER.shape, limbs), 150.0).mesh
    assert mesh.vertices[:, 0].max() > 85
    assert mesh.vertices[:, 0].min() < -85


def test_the_same_tape_gives_the_same_solid() -> None:
    one, other = taped(CONE), taped(CONE)
    assert one.volume_ml == other.volume_ml
    np.testing.assert_array_equal(one.mesh.vertices, other.mesh.vertices)


def test_what_is_drawn_is_what_was_told() -> None:
    drawn = taped(CONE).drawn
    assert [level.girth_mm for level in drawn.levels] == [level.girth_mm for level in CONE.levels]
    assert drawn.levels[0].breadth_mm == pytest.approx(100.0, abs=0.5)
    assert [level.breadth_read for level in drawn.levels][-2:] == [True, False]
