"""The visual hull of bodies whose hull is known in closed form, strangers among the photos, and the range.

Hull of a sphere of radius r seen from a dense ring at distance d about its equator (own derivation): a point at
distance rho from the axis lies in every cone when it lies in the sphere, where rho >= r^2/d; nearer to the axis the
cameras before and behind it decide: |z| <= (d - rho) tan(alpha), sin(alpha) = r/d. A box is its own hull when cameras
stand in the planes of its faces.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from scipy.integrate import quad
from tests.photo_silhouettes import box_share, lens, ring, seen, sphere_share, view_from

from moldwright.errors import InputRefused
from moldwright.geometry.grid import Grid
from moldwright.geometry.level import body_at, body_of_volume, volume_under_mm3
from moldwright.photos.hull.box import standing_box
from moldwright.photos.hull.carve import carved
from moldwright.photos.hull.likely import of_hull
from moldwright.photos.hull.settings import HullSettings
from moldwright.photos.hull.solid import Hulled, hulled
from moldwright.photos.hull.views import Seen, flat_views
from moldwright.photos.hull.waver import waver
from moldwright.photos.photographed import PhotosAsked
from moldwright.photos.sheet.layout import photo_sheet
from moldwright.photos.sheet.sizes import SheetSize
from moldwright.photos.told import PhotoReason
from moldwright.photos.view import View

RADIUS = 30.0
MIDDLE = np.array([0.0, 0.0, 45.0])
SHEET = photo_sheet(SheetSize.A4)
QUICK = HullSettings(least_step_mm=1.0, steps=90, compare_steps=80)


def two_rings(count: int = 24) -> list[View]:
    return [
        *ring(count, 260.0, 18.0, MIDDLE, lens(), "low"),
        *ring(count, 260.0, 48.0, MIDDLE, lens(), "high"),
    ]


def a_sphere(views: list[View], middle: np.ndarray = MIDDLE) -> list[Seen]:
    return [seen(view, sphere_share(view, middle, RADIUS)) for view in views]


@pytest.fixture(scope="module")
def good() -> list[Seen]:
    return a_sphere(two_rings())


@pytest.fixture(scope="module")
def hull(good: list[Seen]) -> Hulled:
    return hulled(good, SHEET, PhotosAsked(), QUICK)


def test_hull_of_half_a_sphere_from_a_ring_on_the_board() -> None:
    far, r = 200.0, RADIUS
    views = ring(48, far, 0.0, np.zeros(3), lens(), "flat")
    shown = [seen(view, sphere_share(view, np.zeros(3), r)) for view in views]
    grid = Grid((-36.0, -36.0, 0.0), 0.5, (145, 145, 73))
    volume = volume_under_mm3(carved(flat_views(shown), grid, 2.0))
    tangent, inner = r / np.sqrt(far**2 - r**2), r**2 / far
    spike = quad(lambda rho: 2 * np.pi * rho * (far - rho) * tangent, 0.0, inner)[0]
    rest = quad(lambda rho: 2 * np.pi * rho * np.sqrt(r**2 - rho**2), inner, r)[0]
    assert volume == pytest.approx(spike + rest, rel=0.004)


def test_a_box_seen_along_its_faces_is_its_own_hull() -> None:
    low, high = np.array([-25.0, -15.0, 0.0]), np.array([25.0, 15.0, 40.0])
    eyes = [[s * 25.0, t * 300.0, 40.0] for s in (-1, 1) for t in (-1, 1)]
    eyes += [[t * 300.0, s * 15.0, 40.0] for s in (-1, 1) for t in (-1, 1)]
    views = [view_from(np.array(eye), np.array([0.0, 0.0, 20.0]), lens(), f"{n}.jpg") for n, eye in enumerate(eyes)]
    shown = flat_views([seen(view, box_share(view, low, high)) for view in views])
    grid = Grid((-35.0, -25.0, 0.0), 0.5, (141, 101, 101))
    body = body_at(carved(shown, grid, 2.0))
    tenth_px_mm = 0.1 * 300.0 / 430.0
    walls_mm2 = 2 * (50 * 30 + 50 * 40 + 30 * 40)
    assert body.volume_mm3 == pytest.approx(50 * 30 * 40, abs=tenth_px_mm * walls_mm2)
    assert body.area_mm2 == pytest.approx(walls_mm2, rel=0.03)
    assert body.why_invalid() == ""
    assert body.bounds_mm[0][2] == 0.0


def test_blocks_that_are_skipped_do_not_change_the_surface(good: list[Seen]) -> None:
    views = flat_views(good[::3])
    grid = Grid((-40.0, -40.0, 0.0), 2.0, (41, 41, 41))
    near, all_ = carved(views, grid, 3.0).field, carved(views, grid, 500.0).field
    assert np.array_equal(np.clip(all_, -3, 3)[np.abs(all_) < 3], near[np.abs(all_) < 3])
    assert np.array_equal(near < 0, all_ < 0)


def test_the_box_holds_the_hull(good: list[Seen]) -> None:
    box = standing_box(flat_views(good), (200.0, 200.0), 400.0)
    last = box.origin + box.step_mm * (np.array(box.shape) - 1)
    assert (box.origin[:2] < MIDDLE[:2] - RADIUS).all()
    assert (last > MIDDLE + RADIUS).all()
    assert (last - box.origin < 3 * RADIUS + MIDDLE[2]).all()


def test_the_solid_has_the_likely_volume_and_holds_the_sphere(hull: Hulled) -> None:
    exact_ml = 4 / 3 * np.pi * RADIUS**3 / 1000
    assert hull.told == ()
    assert hull.hull_ml > 0.99 * exact_ml
    assert hull.mesh.volume_ml == pytest.approx(hull.photos_ml.likely, rel=1e-3)
    assert hull.photos_ml.low < exact_ml < hull.photos_ml.high
    assert hull.mesh.why_invalid() == ""


def test_water_sets_the_solid(good: list[Seen]) -> None:
    assert hulled(good, SHEET, PhotosAsked(volume_ml=100.0), QUICK).mesh.volume_ml == pytest.approx(100.0, rel=1e-3)


@pytest.mark.parametrize("moved", [3.0, 12.0])
def test_a_photo_of_the_piece_moved_is_named_and_changes_nothing(good: list[Seen], hull: Hulled, moved: float) -> None:
    strange = list(good)
    (strange[7],) = a_sphere([good[7].view], MIDDLE + np.array([moved, 0.0, 0.0]))
    (strange[30],) = a_sphere([good[30].view], MIDDLE + np.array([-moved, 0.0, 0.0]))
    found = hulled(strange, SHEET, PhotosAsked(), QUICK)
    assert {one.file for one in found.told} == {good[7].view.file, good[30].view.file}
    assert all(one.reason is PhotoReason.CARVES_ALONE and one.figure > one.limit for one in found.told)
    assert found.mesh.volume_ml == pytest.approx(hull.mesh.volume_ml, rel=0.01)


def test_a_photo_of_a_larger_piece_is_named(good: list[Seen]) -> None:
    strange = list(good)
    strange[3] = seen(good[3].view, sphere_share(good[3].view, MIDDLE, 1.5 * RADIUS))
    (told,) = hulled(strange, SHEET, PhotosAsked(), QUICK).told
    assert (told.file, told.reason) == (good[3].view.file, PhotoReason.DISAGREES)


def test_the_piece_moved_half_way_is_refused(good: list[Seen]) -> None:
    moved = a_sphere([one.view for one in good[::2]], MIDDLE + np.array([0.0, 12.0, 0.0]))
    with pytest.raises(InputRefused) as refused:
        hulled([*moved, *good[1::2]], SHEET, PhotosAsked(), QUICK)
    assert refused.value.code == "photos-disagree"


def test_two_pieces_are_refused(good: list[Seen]) -> None:
    left, right = np.array([0.0, -45.0, 20.0]), np.array([0.0, 45.0, 20.0])
    shares = [np.maximum(sphere_share(one.view, left, 18.0), sphere_share(one.view, right, 16.0)) for one in good]
    both = [seen(one.view, share) for one, share in zip(good, shares, strict=True)]
    with pytest.raises(InputRefused) as refused:
        hulled(both, SHEET, PhotosAsked(), QUICK)
    assert refused.value.code == "two-pieces-on-sheet"


def test_fewer_photos_than_needed_are_refused(good: list[Seen]) -> None:
    with pytest.raises(InputRefused) as refused:
        hulled(good[:23], SHEET, PhotosAsked(), QUICK)
    assert (refused.value.code, refused.value.actual, refused.value.limit) == ("few-photos-left", 23, 24)


def test_a_level_of_a_wanted_volume(good: list[Seen]) -> None:
    field = carved(flat_views(good), Grid((-40.0, -40.0, 0.0), 1.0, (81, 81, 91)), 8.0)
    for share in (0.8, 1.0, 1.1):
        wanted = share * body_at(field).volume_mm3
        assert body_of_volume(field, wanted, 8.0).volume_mm3 == pytest.approx(wanted, rel=3e-4)


def test_the_range_widens_and_falls_as_half_of_the_photos_tell_less() -> None:
    ranges = [of_hull(excess) for excess in np.linspace(0.0, 0.08, 17)]
    assert all(later.likely <= first.likely for first, later in pairwise(ranges))
    assert all(later.low <= first.low for first, later in pairwise(ranges))
    widths = [(one.high - one.low) / one.likely for one in ranges]
    assert widths == sorted(widths)


def test_noise_of_outlines_gives_volume_back_and_widens_the_range() -> None:
    ranges = [of_hull(0.02, waver_px, 0.03) for waver_px in (0.0, 0.4, 0.8)]
    assert [one.likely for one in ranges] == sorted(one.likely for one in ranges)
    sure, unsure = of_hull(0.008), of_hull(0.008, 0.8, 0.03)
    assert unsure.high - unsure.low > sure.high - sure.low


def test_photos_left_out_of_a_cylinder_s_ring_are_no_recess() -> None:
    """Hulls of a cylinder from n views all round are prisms, tan(x) / x too large, x = pi / n: with 44 of 48 photos
    half sets are that much larger, and the volume is the same."""

    def too_large(views: int) -> float:
        return float(np.tan(np.pi / views) * views / np.pi)

    found = [
        of_hull(too_large(n // 4) / too_large(n // 2) - 1.0, photos=n).likely * too_large(n // 2) for n in (48, 44, 40)
    ]
    assert found[1:] == pytest.approx([found[0]] * 2, rel=0.002)


def test_exact_outlines_touch_their_hull_and_uneven_ones_miss_it(good: list[Seen]) -> None:
    """Every second sphere smaller by what a pixel and a half is there: no ray of the others can touch the hull, unless
    it lies between the smaller ones' planes; by a pixel and a half none is past it."""
    px_mm = 260.0 / 430.0
    box = standing_box(flat_views(good), (200.0, 200.0), 400.0)
    exact = waver(flat_views(good), box)
    assert exact.px_mm == pytest.approx(px_mm, rel=0.02)
    assert exact.mean_px < 0.15
    views = two_rings()
    smaller = [seen(view, sphere_share(view, MIDDLE, RADIUS - 1.5 * px_mm)) for view in views[::2]]
    uneven = waver(flat_views([*smaller, *good[1::2]]), box)
    assert 0.25 < uneven.mean_px < 0.75


def test_whoever_watches_can_cancel(good: list[Seen]) -> None:
    class EnoughError(Exception):
        pass

    def watch(stage: str, fraction: float) -> None:
        raise EnoughError

    with pytest.raises(EnoughError):
        hulled(good, SHEET, PhotosAsked(), QUICK, watch)
