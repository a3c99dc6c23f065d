"""Matting in a shell of gypsum, counted by hand from areas. Overlap, a bare first layer: common practice, no source."""

from __future__ import annotations

from dataclasses import replace

import pytest
from made_up_job import commission, job_of, volumes

from moldwright.commission.orders import MoldOrder, ShopOrder
from moldwright.materials import library
from moldwright.plan.steps import Shows, StepPlan
from moldwright.quantities.mats import mats_plan
from moldwright.quantities.quantities import Quantities
from moldwright.steps.shape_cautions import NO_SHAPE
from moldwright.steps.written import work

SHEET = library().shell("fiber-gypsum")


def steps_of(job: Quantities) -> dict[str, StepPlan]:
    return {step.id: step for step in work(job, library(), NO_SHAPE, "").steps}


def test_squares_and_mass_by_hand() -> None:
    """0.1 m2 and a seam of 0.5 m with flanges of 20 mm: 0.12 m2, 70 % of it on piece 1. A square of 200 mm lapped 30
    covers 0.17 x 0.17 = 0.0289 m2: 2.91 and 1.25 of them, so 3 and 2 a layer, in two of three layers; each weighs 0.04
    m2 x 200 g/m2 = 8 g."""
    shell = replace(volumes().shell, area_mm2=100_000.0, edges_mm=(0.0, 500.0), seam_flange_mm=20.0, shares=(0.7, 0.3))
    mats = mats_plan(SHEET, shell, 0.0)
    assert mats is not None
    assert (mats.layers, mats.matted, mats.edge_mm, mats.lap_mm) == (3, 2, 200.0, 30.0)
    assert [(piece.squares, piece.mass_g) for piece in mats.pieces] == [(3, 48.0), (2, 32.0)]
    assert [piece.area_mm2 for piece in mats.pieces] == pytest.approx([84_000.0, 36_000.0])
    assert (mats.mass_g.low, mats.mass_g.likely, mats.mass_g.high) == pytest.approx((40.0, 80.0, 120.0))


def test_what_is_lost_is_cut_too() -> None:
    shell = replace(volumes().shell, area_mm2=289_000.0, edges_mm=(0.0,), seam_flange_mm=0.0, shares=(1.0,))
    bare, with_waste = mats_plan(SHEET, shell, 0.0), mats_plan(SHEET, shell, 0.15)
    assert bare is not None
    assert with_waste is not None
    assert [bare.pieces[0].squares, with_waste.pieces[0].squares] == [10, 12]


def test_only_gypsum_has_matting() -> None:
    shell = volumes().shell
    assert mats_plan(library().shell("plaster-bandage"), shell, 0.0) is None
    assert mats_plan(replace(SHEET, mat_g_m2=None), shell, 0.0) is None


def test_it_is_bought_cut_and_laid() -> None:
    job = job_of(commission(mold=MoldOrder(shell="fiber-gypsum"), shop=ShopOrder()), None, volumes())
    assert job.mats is not None
    bought = {need.id: need.amount.likely for need in job.needs}
    assert bought["gypsum-mat"] == pytest.approx(job.mats.mass_g.likely, abs=0.06)
    steps = steps_of(job)
    assert steps["cut-mats"].shows is Shows.CUTS
    assert (steps["shell-2"].shows, steps["shell-2"].laid_piece) == (Shows.CUTS, 2)
    assert steps["cut-mats"].laid_piece is None
    assert "cut-mats" not in steps_of(job_of(commission(), None, volumes()))
