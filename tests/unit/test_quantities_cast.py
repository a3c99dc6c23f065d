"""The finished piece's mass, from volumes and densities by hand."""

import pytest
from made_up_job import VOLUMES, commission, job_of, volumes

from moldwright.commission.orders import CastOrder
from moldwright.materials import library
from moldwright.mold.measures import MoldMeasures
from moldwright.plan.mixes import SKIN

# Densities of the sheets: A 1.05, B 1.10, bronze 3.0 loose and 8.78 true; both urethanes 100 : 104.8 by weight.
SKIN_G_ML = (1.05 + 1.10 + 3.0) / (2 + 3.0 / 8.78)
BACK_G_ML = 204.8 / (100 / 1.05 + 104.8 / 1.10)


def cast_mass_g(order: CastOrder, measured: MoldMeasures) -> float:
    return job_of(commission(cast=order), library(), measured).cast.cast.mass_g.likely


def test_only_the_skin_above_the_plinth_is_on_the_piece() -> None:
    """424 of the core's 470 ml are kept in a piece of 560 ml; the rest of it is skin."""
    by_hand = 136 * SKIN_G_ML + (560 - 136) * BACK_G_ML
    assert cast_mass_g(CastOrder(), VOLUMES) == pytest.approx(by_hand, rel=1e-3)
    assert cast_mass_g(CastOrder(), volumes(skin__core_kept_ml=460.0)) == pytest.approx(
        100 * SKIN_G_ML + 460 * BACK_G_ML, rel=1e-3
    )


def test_the_skin_of_the_plinth_is_mixed_all_the_same() -> None:
    """150 ml with 8 % of waste (common practice): powder weighs 3.0 / 5.15 of the mix."""
    plan = job_of(commission())
    mixed = sum(mix.parts[-1].scale_reads_g for mix in plan.mixes if mix.for_ == SKIN)
    assert mixed == pytest.approx(150 * SKIN_G_ML * 1.08, rel=0.005)
