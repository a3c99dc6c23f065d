"""Strips by a piece's own girths, and rolls cut into them: counted by hand, and against the least number of rolls."""

from __future__ import annotations

from collections import Counter
from itertools import product
from math import ceil, floor, pi

import numpy as np
import pytest
from made_up_job import commission, job_of, volumes
from scipy.optimize import Bounds, LinearConstraint, milp

from moldwright.mold.measures import ShellBand
from moldwright.plan.mold import PlyCut, StripCut, StripUse
from moldwright.quantities.rolls import rolls_cut
from moldwright.quantities.strips import END_LAP_MM, PieceCover, piece_strips

CYLINDER = tuple(ShellBand(10.0 * 300.0, 300.0) for _ in range(20))
"""Half of a cylinder 200 mm tall, 300 mm round."""


def covered_mm2(cuts: tuple[StripCut, ...]) -> float:
    return sum(cut.count * cut.length_mm * cut.width_mm for cut in cuts)


def strips(use: StripUse, length_mm: float, width_mm: float, count: int) -> StripCut:
    return StripCut(use, length_mm, width_mm, count)


ROUND, UPRIGHT, BASE, LAP = StripUse.ROUND, StripUse.UPRIGHT, StripUse.BASE, StripUse.LAP


def test_half_a_cylinder_by_hand() -> None:
    """Of 200 mm, a strip of 150 covers 150, half a one 50 more: it laps a third of itself, 25. 300 mm round are two
    strips of 165 that lap 30. The band at the base, 10 mm, takes a narrow course. Lengths in tens."""
    assert piece_strips(PieceCover(CYLINDER, 0.0), 150.0, 250.0, 1, 0.0, 10.0) == (
        strips(ROUND, 170.0, 150.0, 2), strips(ROUND, 170.0, 75.0, 2), strips(BASE, 170.0, 75.0, 2)
    )  # fmt: skip


@pytest.mark.parametrize(
    ("way_mm", "full", "half"),
    [(75, 0, 1), (76, 1, 0), (150, 1, 0), (151, 1, 1), (200, 1, 1), (201, 2, 0), (250, 2, 0), (300, 2, 1), (301, 3, 0)],
)
def test_strips_side_by_side(way_mm: float, full: int, half: int) -> None:
    """Each further strip laps a third of its own width: a whole one goes 100 mm farther, half a one 50."""
    rows = (ShellBand(way_mm * 200.0, 200.0),)
    cuts = piece_strips(PieceCover(rows, 0.0), 150.0, 250.0, 1, 0.0, 10.0)
    counts = {cut.width_mm: cut.count for cut in cuts if cut.use is ROUND}
    assert (counts.get(150.0, 0), counts.get(75.0, 0)) == (full, half)


def test_the_second_layer_stands_upright() -> None:
    """200 mm tall in one row: 300 mm round are two whole strips, 250, and a narrow one."""
    cuts = piece_strips(PieceCover(CYLINDER, 0.0), 150.0, 250.0, 2, 0.0, 10.0)
    upright = [cut for cut in cuts if cut.use is UPRIGHT]
    assert upright == [strips(UPRIGHT, 200.0, 150.0, 2), strips(UPRIGHT, 200.0, 75.0, 1)]


def test_both_ends_of_a_course_run_up_the_wall() -> None:
    """300 mm and two flanges of 25: 350 mm are two strips of 190 mm, so the base course too."""
    cuts = piece_strips(PieceCover(CYLINDER, 25.0), 150.0, 250.0, 1, 0.0, 10.0)
    assert {(cut.length_mm, cut.count) for cut in cuts} == {(190.0, 2)}


def test_a_lap_takes_narrow_strips_of_its_own_and_waste_is_cut_too() -> None:
    """A seam of 470 mm, lapped 40: (470 + 30) / 2 = 250 mm, two narrow ones. A tenth of 2 x 170 x 150 + 4 x 170 x 75 +
    2 x 250 x 75 is 14,850 mm2: two more of 170 x 75, or one of 170 x 150 (25,500), as the most frequent are cut."""
    cover = PieceCover(CYLINDER, 0.0, lap_edge_mm=470.0, lap_mm=40.0)
    cuts = piece_strips(cover, 150.0, 250.0, 1, 0.1, 10.0)
    assert [cut for cut in cuts if cut.use is LAP] == [strips(LAP, 250.0, 75.0, 2)]
    bare = piece_strips(cover, 150.0, 250.0, 1, 0.0, 10.0)
    assert covered_mm2(bare) == pytest.approx(2 * 170 * 150 + 4 * 170 * 75 + 2 * 250 * 75)
    assert 14_850.0 <= covered_mm2(cuts) - covered_mm2(bare) <= 25_500.0


@pytest.mark.parametrize("layers", [1, 2, 3])
def test_what_is_cut_covers_the_piece_in_every_layer(layers: int) -> None:
    """A cone of half apex angle 45 degrees, 200 mm tall: its surface is pi r s. Laps and whole strips cost a part."""
    bands = tuple(
        ShellBand(pi * ((k + 1) ** 2 - k**2) * 100.0 * 2**0.5, 2 * pi * (k + 0.75) * 10.0) for k in reversed(range(20))
    )
    cuts = piece_strips(PieceCover(bands, 0.0), 100.0, 300.0, layers, 0.0, 10.0)
    assert sum(band.area_mm2 for band in bands) == pytest.approx(pi * 200.0 * 200.0 * 2**0.5)
    whole = layers * pi * 200.0 * 200.0 * 2**0.5
    laid = covered_mm2(tuple(cut for cut in cuts if cut.use in (ROUND, UPRIGHT)))
    assert whole < laid < 1.8 * whole
    assert all(100.0 <= cut.length_mm <= 300.0 + 1e-9 for cut in cuts)


def least_rolls(cuts: list[PlyCut], roll_mm: float) -> int:
    """By all patterns that fit on a roll, through a general solver of integer programs."""
    most = [range(floor(roll_mm / cut.length_mm + 1e-9) + 1) for cut in cuts]
    lengths = [cut.length_mm for cut in cuts]
    patterns = np.array([p for p in product(*most) if 0 < np.dot(p, lengths) <= roll_mm + 1e-6])
    wanted = LinearConstraint(patterns.T, [cut.count for cut in cuts], np.inf)
    ones = np.ones(len(patterns))
    found = milp(ones, constraints=wanted, integrality=np.ones(len(patterns), int), bounds=Bounds(0, np.inf))
    assert found.fun is not None
    return round(found.fun)


def test_rolls_are_the_fewest_or_one_more() -> None:
    """Against HiGHS, through SciPy: twelve made-up lists of three lengths; the bound of first fit decreasing."""
    rng = np.random.default_rng(7)
    same = 0
    for _ in range(12):
        lengths = sorted({float(10 * n) for n in rng.integers(15, 35, 3)}, reverse=True)
        cuts = [PlyCut(length, int(count)) for length, count in zip(lengths, rng.integers(4, 60, 3), strict=False)]
        rolls, least = sum(each.rolls for each in rolls_cut(cuts, 2750.0)), least_rolls(cuts, 2750.0)
        assert least >= ceil(sum(cut.count * cut.length_mm for cut in cuts) / 2750.0 - 1e-9)
        assert least <= rolls <= least + 1
        same += rolls == least
    assert same >= 11


def test_all_that_is_asked_for_is_on_the_rolls_and_none_is_overfull() -> None:
    cuts = [PlyCut(310.0, 37), PlyCut(240.0, 52), PlyCut(160.0, 5)]
    on_rolls = rolls_cut(cuts, 2750.0)
    for cut in cuts:
        assert sum(r.rolls * c.count for r in on_rolls for c in r.cuts if c.length_mm == cut.length_mm) == cut.count
    assert all(sum(c.count * c.length_mm for c in r.cuts) <= 2750.0 for r in on_rolls)


def test_a_plan_counts_its_cut_list() -> None:
    """Rolls, strips and weight are sums over the list; the base flange is its first band."""
    half = tuple(ShellBand(1500.0, 150.0) for _ in range(18))
    job = job_of(commission(), None, volumes(shell__bands=(half, half)))
    laid = job.bandage
    assert laid is not None
    assert laid.strips == sum(cut.count for piece in laid.pieces for cut in piece.cuts)
    cloth_mm2 = sum(covered_mm2(piece.cuts) for piece in laid.pieces) * laid.plies
    assert laid.dry_g == pytest.approx(cloth_mm2 * 1e-6 * 450.0, abs=0.1)
    plies = sum(r.rolls * c.count for r in laid.on_rolls for c in r.cuts)
    narrow: Counter[float] = Counter()
    for cut in (cut for piece in laid.pieces for cut in piece.cuts if cut.width_mm < laid.strip_width_mm):
        narrow[cut.length_mm] += cut.count * laid.plies
    assert plies == laid.strips * laid.plies - sum(count // 2 for count in narrow.values())
    assert laid.strip_length_mm <= 250.0
    assert laid.laid_mm.likely == pytest.approx(laid.layers * laid.plies * 0.75)
    assert END_LAP_MM < 250.0
