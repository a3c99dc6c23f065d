"""Loose specks count for nothing: a piece stands, and is as large, as if they were not there."""

from __future__ import annotations

import numpy as np
import pytest
from original_files import Shape, box, frustum, off, patches, sphere
from original_scans import read, scan_of

from moldwright.errors import InputRefused
from moldwright.original.mending.solid import stand
from moldwright.original.standing.place import place
from moldwright.original.standing.specks import without_specks
from moldwright.original.standing.stance import Placed
from moldwright.scan import Scan
from moldwright.scan.repairs import Repair, RepairCode

PIECE = frustum(30, 20, 120)
CRUMB = frustum(1, 0.5, 2, sides=6)
PLACES = {
    "above": (0, 0, 130),
    "below": (0, 0, -10),
    "beside": (60, 0, 50),
    "far": (9e5, 0, 0),
    "in reach": (0, 0, 121),
}


def at(shape: Shape, place: tuple[float, ...]) -> Shape:
    return shape[0] + np.asarray(place), shape[1]


def specks(placed: Placed) -> list[Repair]:
    return [repair for repair in placed.repairs if repair.code is RepairCode.SPECKS_DROPPED]


def dropped(scan: Scan) -> int:
    return without_specks(scan)[1].count


@pytest.mark.parametrize("name", PLACES)
@pytest.mark.parametrize("given", [{"height_mm": 120.0}, {"unit": "mm"}, {"unit": "mm", "up": "+z", "board_mm": 1.0}])
def test_a_crumb_changes_nothing(name: str, given: dict[str, object]) -> None:
    alone = place(scan_of(PIECE), **given)  # type: ignore[arg-type]
    placed = place(scan_of(PIECE, at(CRUMB, PLACES[name])), **given)  # type: ignore[arg-type]
    np.testing.assert_array_equal(placed.mesh.vertices, alone.mesh.vertices)
    np.testing.assert_array_equal(placed.mesh.faces, alone.mesh.faces)
    assert specks(placed) == [Repair(RepairCode.SPECKS_DROPPED, 2.0, "mm", 1)]
    assert not specks(alone)


def test_a_crumb_first_in_the_file_changes_nothing() -> None:
    placed = place(scan_of(at(CRUMB, (0, 0, 130)), PIECE), height_mm=120)
    np.testing.assert_allclose(placed.mesh.bounds_mm, [(-30, -30, 0), (30, 30, 120)], atol=1e-9)


def test_a_piece_with_a_crumb_below_becomes_the_same_solid() -> None:
    """Volume of a frustum of a regular 48-gon: h/3 (A1 + A2 + sqrt(A1 A2)), A = 24 r^2 sin(2 pi/48) (exact)."""
    standing = stand(place(scan_of(PIECE, at(CRUMB, (0, 0, -10))), height_mm=120).mesh)
    low, high = (24 * r**2 * np.sin(2 * np.pi / 48) for r in (30, 20))
    assert standing.exact
    assert standing.mesh.volume_mm3 == pytest.approx(40 * (low + high + (low * high) ** 0.5), rel=1e-6)


@pytest.mark.parametrize("closed", [True, False])
def test_many_crumbs_change_nothing(closed: bool) -> None:
    rng = np.random.default_rng(1)
    crumb = CRUMB if closed else (CRUMB[0], CRUMB[1][:5])
    spots = rng.normal(size=(400, 3))
    spots = (0, 0, 60) + spots / np.linalg.norm(spots, axis=1)[:, None] * rng.uniform(90, 150, 400)[:, None]
    placed = place(scan_of(PIECE, *(at(crumb, tuple(spot)) for spot in spots)), height_mm=120)
    np.testing.assert_array_equal(placed.mesh.vertices, place(scan_of(PIECE), height_mm=120).mesh.vertices)
    assert [repair.count for repair in specks(placed)] == [400]


def test_a_flake_without_thickness_is_a_speck() -> None:
    flake = (CRUMB[0], CRUMB[1][:1])
    placed = place(scan_of(PIECE, at(flake, (0, 0, 125))), height_mm=120)
    assert placed.mesh.vertices[:, 2].max() == pytest.approx(120)
    assert len(specks(placed)) == 1


def test_what_touches_or_crosses_the_piece_is_a_part_of_it() -> None:
    for height in (119.99, 119, 118.5):
        assert dropped(scan_of(PIECE, at(CRUMB, (0, 0, height)))) == 0
    assert dropped(scan_of(PIECE, at(CRUMB, (0, 0, 120.5)))) == 1


def test_a_string_of_beads_that_hangs_on_the_piece_is_a_part_of_it() -> None:
    """Each bead crosses the next, the first crosses the piece; without the first they are loose."""
    beads = [at(CRUMB, (0, 0, 119 + 1.5 * k)) for k in range(5)]
    assert dropped(scan_of(PIECE, *beads)) == 0
    assert dropped(scan_of(PIECE, *beads[1:])) == 4


def test_a_hollow_and_what_is_buried_are_kept() -> None:
    hollow = (CRUMB[0] + (0, 0, 60), CRUMB[1][:, ::-1])
    scan = scan_of(PIECE, hollow)
    assert dropped(scan) == 0
    assert place(scan, unit="mm").mesh.volume_mm3 < place(scan_of(PIECE), unit="mm").mesh.volume_mm3
    assert dropped(scan_of(PIECE, at(CRUMB, (5, 5, 60)))) == 0


def test_two_real_bodies_stay_two() -> None:
    for size in (20, 9, 7):
        assert dropped(scan_of(PIECE, at(box(size, size, size * 2), (60, 0, 0)))) == 0


@pytest.mark.parametrize("gap", [0.0, 1e-6, -2.0, 0.1])
@pytest.mark.parametrize("each", [1, 40])
def test_a_surface_in_patches_keeps_them_all(gap: float, each: int) -> None:
    """A sphere cut into patches of `each` triangles that meet, all but meet, overlap, or leave a narrow gap."""
    points, faces = patches(*sphere(60, 24), each=each, gap=gap)
    assert dropped(read("a.off", off(points, faces))) == 0


@pytest.mark.parametrize("gap", [0.0, 1e-6, 0.1])
def test_small_patches_beside_large_ones_are_kept(gap: float) -> None:
    """Most of a sphere in one piece, the rest in single triangles beside each other."""
    points, faces = sphere(60, 48)
    middle = points[faces].mean(axis=1)
    rest = middle[:, 2] > 40
    whole, single = (points, faces[~rest]), patches(points, faces[rest], each=1, gap=gap)
    assert dropped(scan_of(whole, single)) == 0
    assert dropped(scan_of(whole, single, at(CRUMB, (0, 0, 65)))) == 1


def test_a_crumb_beside_a_surface_in_single_triangles_is_dropped() -> None:
    shape = patches(*sphere(60, 24), each=1, gap=1e-6)
    scan = scan_of(shape, patches(*at(CRUMB, (0, 0, 80)), each=1, gap=0.0))
    assert dropped(scan) > 0
    assert place(scan, height_mm=120, up="+z").mesh.vertices[:, 2].max() == pytest.approx(120, abs=0.01)


def test_a_crumb_under_an_open_scan_is_dropped() -> None:
    opened = frustum(30, 10, 80, bottom=False)
    for spot in ((0, 0, -4), (50, 0, 0)):
        assert dropped(scan_of(opened, at(CRUMB, spot))) == 1
    assert dropped(scan_of(opened, at(CRUMB, (0, 0, 40)))) == 0, "inside: it changes no size"


def test_a_scan_that_is_mostly_crumbs_is_refused() -> None:
    """1,600 crumbs of 10.2 mm2 and more are past a quarter of the surface of 25,000 mm2 and them."""
    grid = np.stack(np.meshgrid(*[np.arange(12) * 8.0] * 3), axis=-1).reshape(-1, 3)[:1600] + np.array((80, 80, 0))
    crumbs = [at(CRUMB, tuple(spot)) for spot in grid]
    with pytest.raises(InputRefused) as caught:
        place(scan_of(PIECE, *crumbs), height_mm=120)
    assert caught.value.code == "scan-in-crumbs"
    assert caught.value.actual > caught.value.limit  # type: ignore[operator]


def test_a_scan_that_is_open_only_in_its_crumbs_stands_on_its_flat() -> None:
    """The crumb's border is no opening of the piece."""
    placed = place(scan_of(PIECE, at((CRUMB[0], CRUMB[1][:5]), (0, 0, -5))), unit="mm")
    assert placed.mesh.vertices[:, 2].min() == pytest.approx(0)
