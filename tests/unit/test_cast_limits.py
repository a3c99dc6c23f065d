"""Where the rooms' functions of a cast begin to refuse, and with which figures: each bound from both sides, by hand."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from moldwright.cast.filled import filled_mix, loose_powder_ml, thickened
from moldwright.cast.foam import foam_ml
from moldwright.cast.piece import Fill, fill_of, piece_mass_g, shrinkage_mm
from moldwright.errors import InputRefused
from moldwright.ranges import Range


@pytest.mark.parametrize(
    ("asked", "code", "actual", "limit"),
    [
        (lambda: filled_mix(1, 1, 1, 1.0, 1.0, 0.0, 8.0), "powder-density", 0.0, 8.0),
        (lambda: filled_mix(1, 1, 1, 1.0, 1.0, -0.5, 8.0), "powder-density", -0.5, 8.0),
        (lambda: filled_mix(1, 1, 1, 1.0, 1.0, 8.1, 8.0), "powder-density", 8.1, 8.0),
        (lambda: filled_mix(0, 0, 1, 1.0, 1.0, 3.0, 8.0), "mix-not-physical", 0, "> 0"),
        (lambda: filled_mix(-1, 3, 1, 1.0, 1.0, 3.0, 8.0), "mix-not-physical", 2, "> 0"),
        (lambda: filled_mix(3, -1, 1, 1.0, 1.0, 3.0, 8.0), "mix-not-physical", 2, "> 0"),
        (lambda: filled_mix(1, 2, -0.1, 1.0, 1.0, 3.0, 8.0), "mix-not-physical", 3, "> 0"),
        (lambda: filled_mix(1, 2, 1, 0.0, 1.0, 3.0, 8.0), "mix-not-physical", 3, "> 0"),
        (lambda: filled_mix(1, 2, 1, 1.0, -0.5, 3.0, 8.0), "mix-not-physical", 3, "> 0"),
        (lambda: loose_powder_ml(1.0, 3.0, 8.0, -0.5), "powder-limit", -0.5, 100),
        (lambda: loose_powder_ml(1.0, 3.0, 8.0, 100.0), "powder-limit", 100.0, 100),
        (lambda: thickened(1.0, 0.0, 0.0), "powder-packing", 0.0, 0.87),
        (lambda: thickened(1.0, 0.0, -0.5), "powder-packing", -0.5, 0.87),
        (lambda: thickened(1.0, 0.0, 0.88), "powder-packing", 0.88, 0.87),
        (lambda: thickened(1.0, -0.5), "powder-packing", -0.5, 64.0),
        (lambda: thickened(1.0, 64.0), "powder-packing", 64.0, 64.0),
        (lambda: foam_ml(-0.1), "moisture", -0.1, ">= 0"),
        (lambda: foam_ml(1.0, -20.5), "moisture", 1.0, ">= 0"),
        (lambda: foam_ml(1.0, 120.5), "moisture", 1.0, ">= 0"),
        (lambda: fill_of(0.0, 0.0), "skin-volume", 0.0, 0.0),
        (lambda: fill_of(100.0, -0.0126), "skin-volume", -0.013, 100.0),
        (lambda: fill_of(100.0126, 100.0138), "skin-volume", 100.014, 100.013),
    ],
)
def test_refused_with_its_figures(asked: Callable[[], object], code: str, actual: float, limit: float | str) -> None:
    with pytest.raises(InputRefused) as refused:
        asked()
    assert (refused.value.code, refused.value.actual, refused.value.limit) == (code, actual, limit)


def test_at_the_bound_is_taken() -> None:
    """Grains as loose as they are dense; a drop of one part; no powder; bare resin; the ends of the temperatures."""
    assert filled_mix(0, 0.5, 0, 0.4, 0.3, 8.0, 8.0).density_g_ml == pytest.approx(0.3)
    assert filled_mix(0.5, 0, 0.5, 0.4, 0.3, 8.0, 8.0).density_g_ml == pytest.approx(4.2)
    assert loose_powder_ml(1.0, 3.0, 8.0, 0.0) == 0.0
    assert loose_powder_ml(1.0, 3.0, 8.0, 99.0) == 0.5
    assert thickened(3.0, 0.0) == 3.0
    assert thickened(1.0, 0.0, 0.87) == 1.0
    assert foam_ml(0.0) == 0.0
    assert foam_ml(1.0, 120.0) / foam_ml(1.0, -20.0) == pytest.approx(393.15 / 253.15)  # Charles's law


def test_a_skin_as_large_as_the_cavity_within_rounding() -> None:
    assert fill_of(100.0, 100.00005) == Fill(100.0, 0.0)
    assert fill_of(100.0, -5e-7) == Fill(0.0, 100.0)
    assert fill_of(0.5, 0.1) == Fill(0.1, 0.4)


def test_a_solid_cast_takes_no_back_fill() -> None:
    assert fill_of(100.0, 98.0) == Fill(98.0, 2.0)
    assert fill_of(100.0, 40.0, solid=True) == Fill(100.0, 0.0)


def test_a_skin_never_outgrows_its_piece() -> None:
    """90 + 10 ml at 2 and 1 g/ml: 190 g; thinner by a fifth 72 x 2 + 28 = 172 g; thicker it takes all 100 ml, 200 g."""
    mass = piece_mass_g(Fill(90.0, 10.0), Range.exactly(2.0), Range.exactly(1.0))
    assert (mass.low, mass.likely, mass.high) == pytest.approx((172.0, 190.0, 200.0))


def test_a_light_skin_on_a_heavy_core() -> None:
    """100 + 100 ml at 1 and 2 g/ml, each a tenth off: 120 x 0.9 + 80 x 1.8 = 252; 80 x 1.1 + 120 x 2.2 = 352."""
    mass = piece_mass_g(Fill(100.0, 100.0), Range(0.9, 1.0, 1.1), Range(1.8, 2.0, 2.2))
    assert (mass.low, mass.likely, mass.high) == pytest.approx((252.0, 300.0, 352.0))


def test_both_ends_of_the_shrinkage() -> None:
    """200 mm, a quarter powder: (0 + 0.2 x 0.75) 2 = 0.3 mm and (0.1 + 0.8 x 0.75) 2 = 1.4 mm."""
    got = shrinkage_mm(200.0, Range(0.2, 0.4, 0.8), Range(0.0, 0.1, 0.1), 25.0)
    assert (got.low, got.high) == pytest.approx((0.3, 1.4))
