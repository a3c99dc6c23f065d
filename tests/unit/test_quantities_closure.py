"""What holds the shell closed: common practice for small molds, the cast's pressure for large ones."""

from __future__ import annotations

from dataclasses import replace
from math import pi, sin

import pytest
from made_up_job import commission, job_of, volumes

from moldwright.geometry.seam_kind import Seam
from moldwright.materials import library
from moldwright.mold.measures import BareSeam, Fasteners, MoldMeasures, Push
from moldwright.quantities.quantities import Quantities
from moldwright.units.constants import GRAVITY_M_S2

LIBRARY = library()
LOW_CLAMP_N, LOW_BAND_N, LOW_STRAP_N = (
    sheet.holds_n.low for sheet in map(LIBRARY.consumable, ("clamp", "band", "strap")) if sheet.holds_n is not None
)


def pressed(off_ml: float, up_ml: float = 0.0, seam: Seam = Seam.WALL) -> MoldMeasures:
    lap = seam is Seam.LAP
    return volumes(
        shell__pushes=(Push(off_ml, up_ml), Push(off_ml, up_ml)),
        shell__seam=seam,
        shell__lap_mm=30.0 if lap else 0.0,
        shell__seam_flange_mm=0.0 if lap else 20.0,
    )


def made(measures: MoldMeasures) -> Quantities:
    return job_of(commission(), LIBRARY, measures)


def test_a_push_is_the_weight_of_so_much_of_the_heaviest_mix() -> None:
    """A liter of a mix of density d weighs d kg."""
    held = made(pressed(1000.0)).closure
    assert held.density_g_ml > 1.5, "the skin's bronze is heavier than what is poured behind it"
    assert held.pushes_n == pytest.approx((held.density_g_ml * GRAVITY_M_S2,) * 2, rel=1e-3)
    assert made(volumes()).closure.pushes_n == ()


def test_a_small_mold_takes_what_is_common_practice_and_a_large_one_what_holds_it() -> None:
    """620 mm of seam take 7 clamps by practice; each clamp counts for one piece alone."""
    small, large = made(pressed(100.0)).closure, made(pressed(20_000.0)).closure
    assert (small.seam_clamps, small.bands, small.straps) == (7, 3, 0)
    needed = 2 * 20.0 * large.density_g_ml * GRAVITY_M_S2 / LOW_CLAMP_N
    assert needed <= large.seam_clamps <= needed * 1.001 + 1
    assert large.pitch_mm == pytest.approx(620.0 / needed, rel=1e-3)


def test_bands_alone_hold_a_lap_and_straps_take_over_where_they_would_be_too_many() -> None:
    """A band has two strands that cross the seam; of three pieces each is held by 2 sin(60 deg) of a strand."""
    for off_ml in (100.0, 9_000.0, 60_000.0):
        held = made(pressed(off_ml, seam=Seam.LAP)).closure
        pull_n = held.bands * LOW_BAND_N + held.straps * LOW_STRAP_N
        assert held.seam_clamps == 0
        assert held.bands + held.straps >= 3
        assert 2 * sin(pi / 2) * pull_n >= held.push_n
        assert (held.straps > 0) == (held.push_n > 6 * 2 * LOW_BAND_N)


def test_what_is_lifted_beyond_its_weight_is_weighted() -> None:
    job = made(pressed(100.0, up_ml=2000.0))
    half_kg = job.shell_g.likely / 2000.0
    assert job.closure.weights_kg == pytest.approx((2.0 * job.closure.density_g_ml - half_kg,) * 2, rel=1e-3)
    assert made(pressed(100.0, up_ml=-500.0)).closure.weights_kg == (0.0, 0.0)
    assert made(pressed(100.0, up_ml=20.0)).closure.weights_kg == (0.0, 0.0), "it is heavier than its lift"


def test_clamps_stand_where_bolts_of_a_printed_seam_found_no_place() -> None:
    """620 mm of seam, something every 100 mm by practice. Counted by hand: bolts at 200, 280 and 400 mm leave 200 mm to
    the first (a clamp at 50 and one at 125 mm), 80 mm, 120 mm (one in the middle) and 220 mm (two)."""
    few = Fasteners(3, 16.0, (BareSeam(200.0, 1), BareSeam(80.0, 2), BareSeam(120.0, 2), BareSeam(220.0, 1)), 1, 4)
    close = (BareSeam(40.0, 1), *(BareSeam(60.0, 2),) * 9, BareSeam(40.0, 1))
    enough = Fasteners(10, 20.0, close, 9, 6)
    far = Fasteners(10, 16.0, (*(BareSeam(20.0, 2),) * 9, BareSeam(220.0, 1), BareSeam(220.0, 1)), 0, 6)
    for fasteners, clamps in ((few, 5), (enough, 0), (far, 4)):
        measures = pressed(100.0)
        held = made(replace(measures, shell=replace(measures.shell, fasteners=fasteners))).closure
        assert held.seam_clamps == clamps
        assert held.seam_bolts == fasteners.seam_bolts
        assert held.bolts == held.seam_bolts + fasteners.base_bolts
        assert held.seam_bolt_mm == fasteners.bolt_mm


def test_bolts_and_clamps_together_are_as_many_as_the_cast_pushes_for() -> None:
    """By hand: 20 l of 2.199 g/ml push two pieces with 431.3 N each, a clamp holds 30 N: 28.8 of them, one every 21.6
    of 620 mm. Eight bolts close together at one end leave 580 mm, held at one end: 26.9 less a half, 27 clamps."""
    measures = pressed(20_000.0)
    bare = made(measures).closure
    close = Fasteners(8, 20.0, (*(BareSeam(5.0, 2),) * 7, BareSeam(5.0, 1), BareSeam(580.0, 1)))
    held = made(replace(measures, shell=replace(measures.shell, fasteners=close))).closure
    assert held.pitch_mm == pytest.approx(21.56, abs=0.01)
    assert (bare.seam_clamps, held.seam_clamps, held.seam_bolts) == (29, 27, 8)
