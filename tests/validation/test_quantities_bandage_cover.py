"""How much bandage the strips of a piece take, against the true surface of cylinders and zones of spheres.

Published practice of plaster casts: turns lap by one third to one half (Hospital Corpsman manual), by a quarter to a
half (a course on orthopedic casts). Strips that lap a share s of their width take 1 / (1 - s) times the surface: 1.33
at a quarter, 1.5 at a third, 2 at a half. Ends that lap 30 mm of strips 250 mm long add 250 / 220 where strips go on
end on end: at a third 1.70 in all. Areas: 2 pi r h of a cylinder, and of a sphere's zone h high (Archimedes).
"""

from __future__ import annotations

from math import pi, sqrt

import pytest

from moldwright.mold.measures import ShellBand
from moldwright.plan.mold import StripUse
from moldwright.quantities.strips import PieceCover, piece_strips

SOURCE = (
    'US Navy, "Hospital Corpsman 1 & C", NAVEDTRA 10669-C, cast application (turns lap one third to one half)',
    'US Army medical training, "Orthopedic casts and splints" (each turn laps 1/2 or 1/4 of the one before)',
)

THIRD, HALF = 3 / 2, 2.0
LONGEST_MM, END_LAP_MM = 250.0, 30.0
ENDS = LONGEST_MM / (LONGEST_MM - END_LAP_MM)
FIELD = (StripUse.ROUND, StripUse.UPRIGHT)


def cylinder(radius_mm: float, high_mm: int, pieces: int) -> tuple[ShellBand, ...]:
    girth_mm = 2 * pi * radius_mm / pieces
    return (ShellBand(10.0 * girth_mm, girth_mm),) * (high_mm // 10)


def dome(radius_mm: int, pieces: int) -> tuple[ShellBand, ...]:
    """Half a sphere in zones 10 mm high, each as far round as at its foot."""
    return tuple(
        ShellBand(2 * pi * radius_mm * 10.0 / pieces, 2 * pi * sqrt(radius_mm**2 - (10.0 * k + 2.5) ** 2) / pieces)
        for k in range(radius_mm // 10)
    )


def factor(bands: tuple[ShellBand, ...], layers: int) -> float:
    """Bandage of the layers over the surface, a layer."""
    cuts = piece_strips(PieceCover(bands, 0.0), 150.0, LONGEST_MM, layers, 0.0, 10.0)
    laid = sum(cut.count * cut.length_mm * cut.width_mm for cut in cuts if cut.use in FIELD)
    return laid / (layers * sum(band.area_mm2 for band in bands))


@pytest.mark.parametrize("layers", [1, 2, 3])
@pytest.mark.parametrize("pieces", [1, 2, 3])
@pytest.mark.parametrize(("radius_mm", "high_mm"), [(150, 400), (200, 600), (400, 900)])
def test_a_large_cylinder_takes_what_the_laps_tell(radius_mm: int, high_mm: int, pieces: int, layers: int) -> None:
    """Many strips beside and behind each other: between a third's lap alone and that with ends lapped, lengths rounded
    up by 10 of 250 mm at the most."""
    bands = cylinder(radius_mm, high_mm, pieces)
    assert sum(band.area_mm2 for band in bands) == pytest.approx(2 * pi * radius_mm * high_mm / pieces)
    assert THIRD * 0.97 <= factor(bands, layers) <= THIRD * ENDS * 1.04


@pytest.mark.parametrize("layers", [2, 3])
@pytest.mark.parametrize("pieces", [1, 2, 3])
@pytest.mark.parametrize("radius_mm", [80, 100, 150, 200, 300])
def test_half_a_sphere_is_covered_once_and_not_twice(radius_mm: int, pieces: int, layers: int) -> None:
    """From 80 mm on: what a small piece saves in laps, as few strips cover it, and what it wastes at their ends stay
    between a bare cover and the lap by half of the books with ends lapped."""
    bands = dome(radius_mm, pieces)
    assert sum(band.area_mm2 for band in bands) == pytest.approx(2 * pi * radius_mm**2 / pieces)
    assert 1.1 < factor(bands, layers) < HALF
    assert factor(dome(600, pieces), layers) == pytest.approx(THIRD * ENDS, rel=0.1)


def test_the_base_is_stiffened_once() -> None:
    """One more course on flange and lip, 55 mm wide: half a roll's width, its length and the laps of its ends."""
    girth_mm = 600.0
    bands = (ShellBand(55.0 * girth_mm, girth_mm), *cylinder(80.0, 200, 1))
    cuts = piece_strips(PieceCover(bands, 0.0), 150.0, LONGEST_MM, 2, 0.0, 10.0)
    base = [cut for cut in cuts if cut.use is StripUse.BASE]
    assert {cut.width_mm for cut in base} == {75.0}
    length_mm = sum(cut.count * cut.length_mm for cut in base)
    assert girth_mm + 2 * END_LAP_MM <= length_mm <= girth_mm + 2 * END_LAP_MM + 3 * 10.0
