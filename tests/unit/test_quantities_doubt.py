"""An original that was not scanned: its ranges through rubber, cast, shell and list.

Bounds of sums and differences are held against draws (Monte Carlo after JCGM 101:2008) of normal factors.
"""

from dataclasses import replace

import numpy as np
import pytest
from job_plan_sample import sample_plan
from made_up_job import VOLUMES, commission, job_of

from moldwright.commission.orders import CastOrder
from moldwright.materials import library
from moldwright.plan.known import SCANNED, Known
from moldwright.plan.needs import NeedGroup
from moldwright.plan.original import Source
from moldwright.quantities.quantities import Quantities
from moldwright.ranges import NO_SPREAD, Range, Spread

SPREAD = Spread(Range(0.96, 1.0, 1.04), Range(0.98, 1.02, 1.08), Range(0.95, 1.0, 1.05), unseen_ml=12.0)
TO_90 = 1.6449
"""From a standard deviation to the bounds that hold nine of ten of a normal quantity."""


def doubted(cast: CastOrder | None = None, spread: Spread = SPREAD) -> Quantities:
    order = commission(cast=cast) if cast else commission()
    return job_of(order, library(), replace(VOLUMES, spread=spread))


def draws(share: float) -> np.ndarray:
    return 1.0 + np.random.default_rng(7 + round(1e4 * share)).normal(0.0, share / TO_90, 400_000)


def test_a_scan_tells_plain_numbers() -> None:
    cast = doubted(spread=NO_SPREAD).cast.cast
    assert all(isinstance(each, float) for each in (cast.volume_ml, cast.skin.volume_ml, cast.backfill_ml))


def test_doubt_moves_no_likely_value_and_no_cup() -> None:
    sure, unsure = doubted(spread=NO_SPREAD), doubted()
    assert sure.mixes == unsure.mixes
    for one, two in zip(sure.needs, unsure.needs, strict=True):
        assert one.amount.likely == two.amount.likely
        assert one.amount.low >= two.amount.low
        assert one.amount.high <= two.amount.high


def test_backfill_is_what_two_doubts_leave() -> None:
    """The cavity's 620 ml, 60 of them a plinth, less 150 ml of skin."""
    told = doubted().cast.cast
    assert isinstance(told.backfill_ml, Range)
    left = 560.0 * draws(0.04) + 60.0 - 150.0 * draws(0.05)
    low, high = np.quantile(left, [0.05, 0.95])
    assert (told.backfill_ml.low, told.backfill_ml.high) == pytest.approx((low, high), rel=0.002)
    assert told.backfill_ml.likely == pytest.approx(470.0)


def test_a_solid_cast_is_as_uncertain_as_its_volume() -> None:
    told = doubted(CastOrder(solid=True)).cast.cast
    assert isinstance(told.volume_ml, Range)
    assert told.volume_ml.high - told.volume_ml.likely == pytest.approx(0.04 * 560.0)


def test_the_piece_weighs_as_skin_and_core_are_drawn() -> None:
    """Wider than a scanned one's by the two doubts as squares (136 ml of skin at 2.2, the rest of 560 ml at 1.1)."""
    sure, unsure = (doubted(spread=each).cast.cast.mass_g for each in (NO_SPREAD, SPREAD))
    skin, back = (1.05 + 1.10 + 3.0) / (2 + 3.0 / 8.78), 204.8 / (100 / 1.05 + 104.8 / 1.10)
    drawn = 560.0 * draws(0.04) * back + 136.0 * draws(0.05) * (skin - back)
    share = np.quantile(drawn, 0.95) / np.median(drawn) - 1.0
    scanned = sure.high / sure.likely - 1.0
    assert unsure.high / unsure.likely - 1.0 == pytest.approx(np.hypot(share, scanned), abs=0.002)


def test_unseen_recesses_add_to_the_fill_alone() -> None:
    seen, unseen = doubted(spread=replace(SPREAD, unseen_ml=0.0)).rubber, doubted().rubber
    assert [coat.mixed_g for coat in seen.coats] == [coat.mixed_g for coat in unseen.coats]
    assert unseen.fill.mixed_g.high > seen.fill.mixed_g.high
    assert unseen.fill.mixed_g.low == seen.fill.mixed_g.low
    assert unseen.glove_g.high > seen.glove_g.high


def test_the_list_buys_for_the_wider_range() -> None:
    sure, unsure = doubted(spread=NO_SPREAD), doubted()
    for group in (NeedGroup.RUBBER, NeedGroup.CASTING):
        wider = [
            (one, two)
            for one, two in zip(sure.needs, unsure.needs, strict=True)
            if one.for_ is group and two.amount.high > one.amount.high
        ]
        assert wider, group


def test_a_bandage_may_set_heavier() -> None:
    sure, unsure = doubted(spread=NO_SPREAD).shell_g, doubted().shell_g
    assert (unsure.likely, unsure.high > sure.high) == (sure.likely, True)


def test_what_is_known_is_told_with_the_original() -> None:
    plain = {"volume_ml": 480.0, "area_cm2": 300.0, "source": Source.SCAN, "also": (), "photos": (), "asks": ()}
    measured = replace(sample_plan().original, **plain, spread=NO_SPREAD)
    assert SCANNED.told(measured) == measured
    told = Known(Source.PHOTOS, (Source.WATER,), SPREAD).told(measured)
    assert told.volume_ml == Range(480.0 * 0.96, 480.0, 480.0 * 1.04)
    assert told.area_cm2 == Range(300.0 * 0.98, 300.0 * 1.02, 300.0 * 1.08)
