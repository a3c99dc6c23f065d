"""Directions that photos cover, from eyes placed at known angles."""

from __future__ import annotations

import numpy as np
import pytest

from moldwright.photos.tally import MissingArc, Ring, RingFault, tally_of


def eyes(degrees: np.ndarray, elevation: float, far: float = 500.0) -> np.ndarray:
    """Clockwise as seen from above from the front edge: 90 is on the left, at -x."""
    a, e = np.radians(degrees), np.radians(elevation)
    return far * np.column_stack([-np.sin(a) * np.cos(e), -np.cos(a) * np.cos(e), np.full(len(a), np.sin(e))])


ALL = np.arange(0, 360, 15.0)


def test_two_whole_rings() -> None:
    tally = tally_of(np.vstack([eyes(ALL, 20), eyes(ALL, 50)]))
    assert (tally.low.photos, tally.high.photos, tally.above, tally.more) == (24, 24, 0, 0)
    assert (tally.low.elevation_deg, tally.high.elevation_deg) == pytest.approx((20, 50))
    assert tally.low.fault is tally.high.fault is None
    assert tally.low.gaps == tally.high.gaps == ()


def test_a_gap_is_told_clockwise_from_the_front() -> None:
    """No photo between 135 and 210 degrees: the back, on its left; the four at 150 to 195 are missing."""
    some = ALL[(ALL <= 135) | (ALL >= 210)]
    tally = tally_of(np.vstack([eyes(some, 20), eyes(ALL, 50)]))
    (gap,) = tally.low.gaps
    assert (gap.from_deg, gap.to_deg, gap.photos) == (pytest.approx(135), pytest.approx(210), 4)
    assert tally.more == 4
    left = tally_of(np.array([(-400.0, 0.0, 150.0), (0.0, -400.0, 150.0)])).low.gaps
    assert [(round(gap.from_deg), round(gap.to_deg)) for gap in left] == [(0, 90), (90, 0)]


def test_a_gap_over_the_front() -> None:
    some = ALL[(ALL >= 30) & (ALL <= 330)]
    (gap,) = tally_of(np.vstack([eyes(ALL, 20), eyes(some, 50)])).high.gaps
    assert (round(gap.from_deg), round(gap.to_deg), gap.photos) == (330, 30, 3)


@pytest.mark.parametrize(
    ("low", "high", "faults"),
    [
        (20, 50, (None, None)),
        (5, 50, (RingFault.TOO_LOW, None)),
        (20, 33, (None, RingFault.TOO_LOW)),
        (40, 60, (RingFault.TOO_HIGH, None)),
        (20, 64, (None, RingFault.TOO_HIGH)),
    ],
)
def test_rings_too_low_or_too_high(low: float, high: float, faults: tuple[RingFault | None, RingFault | None]) -> None:
    tally = tally_of(np.vstack([eyes(ALL, low), eyes(ALL, high)]))
    assert (tally.low.photos, tally.high.photos) == (24, 24)
    assert (tally.low.fault, tally.high.fault) == faults


@pytest.mark.parametrize(("at", "low"), [(18, True), (28, True), (45, False), (52, False)])
def test_one_ring_alone_is_not_split(at: float, low: bool) -> None:
    wobble = at + 3 * np.sin(ALL * 7.7)
    tally = tally_of(np.vstack([eyes(ALL[k : k + 1], wobble[k]) for k in range(24)]))
    there, missing = (tally.low, tally.high) if low else (tally.high, tally.low)
    assert there.photos == 24
    assert missing == Ring(0, 0.0, (MissingArc(0.0, 360.0, 24),), RingFault.MISSING)
    assert tally.more == 24


def test_photos_from_above_are_no_ring() -> None:
    tally = tally_of(np.vstack([eyes(ALL, 20), eyes(ALL, 50), eyes(ALL[:3], 85)]))
    assert (tally.low.photos, tally.high.photos, tally.above) == (24, 24, 3)


def test_nothing_at_all() -> None:
    tally = tally_of(np.zeros((0, 3)))
    assert tally.low.fault is tally.high.fault is RingFault.MISSING
    assert tally.more == 48
