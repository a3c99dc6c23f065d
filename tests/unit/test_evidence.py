"""Sources put together and held against each other: closed forms of normals, scipy's densities, plain arithmetic."""

from __future__ import annotations

from math import exp, log, pi, sqrt

import numpy as np
import pytest
import trimesh
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from moldwright.commission.orders import GapOrder
from moldwright.errors import InputRefused
from moldwright.materials.originals import original_materials
from moldwright.original.evidence.measured import displaced, less_gaps, weighed
from moldwright.original.evidence.narrow import together
from moldwright.original.evidence.only_volume import least_area_cm2, only_volume, spheroid_area_cm2
from moldwright.original.evidence.witness import Bound, Witness
from moldwright.plan.original import Source
from moldwright.ranges import Range
from moldwright.units.read_off import ReadOff

NINETY = stats.norm.ppf(0.95)


def even(source: Source, likely: float, share: float, area: Range | None = None, slope: float = 2 / 3) -> Witness:
    """As sure above as below, in logarithms."""
    return Witness(source, Range(likely * exp(-share), likely, likely * exp(share)), area, slope)


def test_one_source_alone_stays_as_it_is() -> None:
    one = even(Source.TAPE, 900.0, 0.1, Range(400.0, 500.0, 640.0))
    found = together([one])
    assert (found.volume_ml, found.area_cm2) == (one.volume_ml, one.area_cm2)
    assert found.sources == (Source.TAPE,)


@given(st.floats(200, 5000), st.floats(-0.1, 0.1), st.floats(0.03, 0.2), st.floats(0.02, 0.2))
def test_two_normals_make_the_normal_of_their_precisions(volume: float, off: float, one: float, other: float) -> None:
    """Mean weighted by 1 / s^2, and 1 / s^2 = 1 / s1^2 + 1 / s2^2."""
    if abs(off) > one + other:
        return
    found = together([even(Source.TAPE, volume, one), even(Source.WATER, volume * exp(off), other)])
    weights = np.array([one**-2, other**-2])
    mean = log(volume) + off * weights[1] / weights.sum()
    half = weights.sum() ** -0.5
    assert log(found.volume_ml.likely) == pytest.approx(mean, abs=1e-3)
    assert log(found.volume_ml.high) == pytest.approx(mean + half, abs=1e-3)
    assert log(found.volume_ml.low) == pytest.approx(mean - half, abs=1e-3)


def test_a_lopsided_source_is_weighed_by_its_two_widths() -> None:
    """Against scipy's split density times a normal, summed on a grid of volumes by the trapezoid rule."""
    tape, water = Witness(Source.TAPE, Range(800.0, 1000.0, 1100.0)), even(Source.WATER, 930.0, 0.03)
    at = np.linspace(log(600), log(1500), 20001)
    below, above = log(1000 / 800) / NINETY, log(1100 / 1000) / NINETY
    split = np.where(at < log(1000), stats.norm.pdf((at - log(1000)) / below), stats.norm.pdf((at - log(1000)) / above))
    weight = split * stats.norm.pdf((at - log(930)) / (0.03 / NINETY))
    share = np.cumsum(weight) / weight.sum()
    low, likely, high = np.exp(np.interp([0.05, 0.5, 0.95], share, at))
    found = together([tape, water]).volume_ml
    assert [found.low, found.likely, found.high] == pytest.approx([low, likely, high], rel=5e-4)


def test_what_water_tells_of_the_volume_tells_of_the_area_too() -> None:
    """Area and volume as two normals that go together, by the rule for conditionals: the likely area follows by its
    slope, and the part of its doubt that came from the volume goes."""
    area = Range(500 * exp(-0.12), 500.0, 500 * exp(0.12))
    tape, water = even(Source.TAPE, 1000.0, 0.1, area, 0.6), even(Source.WATER, 940.0, 0.001)
    found = together([tape, water])
    assert found.area_cm2 is not None
    s = water.widths[0] * NINETY
    mean = log(940 / 1000) * 0.01 / (0.01 + s**2)
    own = sqrt(0.12**2 - (0.6 * 0.1) ** 2)
    assert found.area_cm2.likely == pytest.approx(500 * exp(0.6 * mean), rel=1e-3)
    assert log(found.area_cm2.high / found.area_cm2.low) / 2 == pytest.approx(own, rel=0.01)


def test_a_bound_takes_only_one_side() -> None:
    tape = even(Source.TAPE, 1000.0, 0.1)
    hollow = Witness(Source.WEIGHT, Range(690.0, 700.0, 710.0), bound=Bound.AT_LEAST)
    assert together([tape, hollow]).volume_ml.likely == pytest.approx(1000.0, rel=1e-3)
    near = Witness(Source.WEIGHT, Range(1000.0, 1010.0, 1020.0), bound=Bound.AT_LEAST)
    found = together([tape, near]).volume_ml
    assert found.low > 1000.0
    hull = Witness(Source.PHOTOS, Range(940.0, 950.0, 960.0), bound=Bound.AT_MOST)
    assert together([tape, hull]).volume_ml.likely < 950.0


def test_the_order_of_sources_does_not_matter() -> None:
    three = [even(Source.PHOTOS, 1000.0, 0.05), even(Source.WATER, 980.0, 0.02), even(Source.WEIGHT, 1030.0, 0.1)]
    assert together(three).volume_ml == together(three[::-1]).volume_ml


@pytest.mark.parametrize(
    ("read", "half"),
    [(ReadOff(1900.0, 10.0), 0.0203), (ReadOff(1900.0, 100.0), 0.032), (ReadOff(2000.0, 1000.0), 0.238)],
)
def test_water_is_as_sure_as_its_bucket_and_its_last_digit(read: ReadOff, half: float) -> None:
    """2 % and a rectangle of one step, s = d / sqrt 12, as squares (JCGM 100:2008, F.2.2.1, from memory)."""
    found = displaced(read).volume_ml
    assert log(found.high / found.likely) == pytest.approx(half, rel=0.01)
    assert found.likely == read.value


def test_tape_and_water_are_within_four_percent() -> None:
    found = together([even(Source.TAPE, 1000.0, 0.12), displaced(ReadOff(1000.0, 10.0))]).volume_ml
    assert (found.high - found.low) / 2 / found.likely <= 0.04


def test_a_weight_over_a_density_is_a_volume() -> None:
    found = weighed(ReadOff(3200.0, 100.0), ReadOff(1.6, 0.01), "stone")
    assert found.volume_ml.likely == pytest.approx(2000.0)
    assert found.bound is Bound.BOTH
    half = log(found.volume_ml.high / 2000.0)
    digits = NINETY / sqrt(12) * np.array([100 / 3200, 0.01 / 1.6])
    assert half == pytest.approx(sqrt(0.005**2 + 0.02**2 + (digits**2).sum()), rel=1e-6)


def test_a_class_of_material_has_a_range_of_densities() -> None:
    """Glass of 2.45 to 2.6 g/ml: 2600 g are 1000 to 1061 ml at most and least."""
    found = weighed(ReadOff(2600.0, 1.0), None, "glass").volume_ml
    assert found.low == pytest.approx(1000.0, rel=2e-3)
    assert found.high == pytest.approx(1061.2, rel=2e-3)


def test_a_hollow_piece_fills_at_least_what_it_weighs() -> None:
    assert weighed(ReadOff(3200.0, 100.0), None, "plaster", solid=False).bound is Bound.AT_LEAST


@pytest.mark.parametrize("material", ["unknown", "wood", "moon rock", "painted surface", "filament print"])
def test_a_loose_class_asks_for_a_density(material: str) -> None:
    with pytest.raises(InputRefused) as refused:
        weighed(ReadOff(3200.0, 100.0), None, material)
    assert refused.value.code == "density-unknown"
    assert "density =" in refused.value.remedy


def test_the_classes_ranges_are_within_a_third() -> None:
    ranges = {one.name: one.density for one in original_materials() if one.density is not None}
    assert len(ranges) > 15
    assert all(density.high / density.low < 1.41 for density in ranges.values())


def test_a_gap_lessens_what_outlines_leave() -> None:
    """Two recesses of 20 x 30 x 40 mm, three quarters full: 36 ml."""
    found = less_gaps(500.0, [GapOrder("chin", 20.0, 30.0, 40.0, 2)])
    assert found.volume_ml.likely == pytest.approx(464.0)
    assert found.bound is Bound.AT_MOST
    photos = even(Source.PHOTOS, 490.0, 0.04)
    assert together([photos, found]).volume_ml.likely < 475.0
    with pytest.raises(InputRefused, match="gaps-too-large"):
        less_gaps(30.0, [GapOrder("chin", 20.0, 30.0, 40.0, 2)])


WATER = displaced(ReadOff(1900.0, 10.0))


def refusal(*witnesses: Witness) -> InputRefused:
    with pytest.raises(InputRefused) as refused:
        together(witnesses)
    assert refused.value.code == "sources-disagree"
    assert len(refused.value.remedy) < 800
    return refused.value


@pytest.mark.parametrize(
    ("wrong", "said", "remedy"),
    [
        (
            even(Source.SCAN, 1900 * 0.92, 0.005),
            "the scan is 8 % smaller than the water says",
            "Is the scan's unit right",
        ),
        (even(Source.SCAN, 1900 * 25.4**-3, 0.005), "16387 times smaller", "25.4 times too small"),
        (even(Source.SCAN, 1900 * 10.0**3, 0.005), "1000 times larger", "10 times too large"),
        (even(Source.PHOTOS, 1900 * 0.96**3, 0.04), "the photos is 12 % smaller", "longer or shorter by 4.2 %"),
        (even(Source.PHOTOS, 1900 * 2.0, 0.04), "2 times larger", "show this piece"),
        (even(Source.WEIGHT, 1100.0, 0.05), "the weight is 42 % smaller", "solid = false"),
        (even(Source.WEIGHT, 2500.0, 0.05), "the weight is 32 % larger", "density right"),
        (even(Source.TAPE, 1400.0, 0.1), "the tape is 26 % smaller", "limbs told"),
    ],
)
def test_a_disagreement_is_told_with_its_figure_and_its_likely_culprit(wrong: Witness, said: str, remedy: str) -> None:
    for pair in ((wrong, WATER), (WATER, wrong)):
        refused = refusal(*pair)
        assert said.replace("photos is", "photos are") in str(refused.actual)
        assert remedy in refused.remedy


def test_ranges_that_meet_are_no_disagreement() -> None:
    assert together([even(Source.SCAN, 1900 * 0.985, 0.005), WATER]).volume_ml.likely < 1900.0


def test_who_is_contradicted_by_all_others_is_the_culprit() -> None:
    """Water is asked about last, unless scan and tape agree against it."""
    refused = refusal(
        even(Source.SCAN, 2200.0, 0.005), even(Source.TAPE, 2250.0, 0.1), even(Source.WATER, 1900.0, 0.02)
    )
    assert str(refused.actual).startswith("the water is 14 % smaller than the scan says")
    assert "brim" in refused.remedy


def test_no_body_has_less_area_than_a_ball_and_a_spheroid_has_its_own() -> None:
    """Areas against trimesh's scaled icospheres (reference library)."""
    ball = trimesh.creation.icosphere(subdivisions=5, radius=50.0)
    assert least_area_cm2(ball.volume / 1000) == pytest.approx(ball.area / 100, rel=1e-3)
    for tall in (0.5, 1.0, 2.4):
        egg = ball.copy()
        egg.apply_scale([1.0, 1.0, tall])
        assert spheroid_area_cm2(egg.volume / 1000, egg.extents[2]) == pytest.approx(egg.area / 100, rel=2e-3)


@pytest.mark.parametrize("height", [None, 160.0, 400.0])
def test_a_volume_alone_gives_wide_areas(height: float | None) -> None:
    """The ball's diameter against trimesh's icosphere (reference library)."""
    found = only_volume(WATER.volume_ml, height)
    ball = trimesh.creation.icosphere(subdivisions=5, radius=found.ball_mm / 2)
    assert ball.volume / 1000 == pytest.approx(1900.0, rel=2e-3)
    assert found.volume_ml == WATER.volume_ml
    assert found.area_cm2.low >= (36 * pi * WATER.volume_ml.low**2) ** (1 / 3)
    assert found.area_cm2.high / found.area_cm2.low > 1.5
    assert (found.height_mm.low < found.height_mm.high) is (height is None)
