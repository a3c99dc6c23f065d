"""What holds the glove up: its clamped flange; a knob is an exception with a cup of its own.

A knob is a cone without its tip, 20 mm at its foot, 12 mm at its tip, 10 mm high: 2.05 ml (solid geometry; the size is
common practice, no source).
"""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from made_up_job import commission, job_of
from told import ToldStep, told

from moldwright.commission.orders import CastOrder, Measure, MoldOrder, ShopOrder
from moldwright.materials import library
from moldwright.quantities.knobs import KNOBS, knob_cup, knob_cup_of
from moldwright.ranges import Range

KNOB_ML = 2.0525
LIBRARY = library()
LIFE_S = Range(1500.0, 2100.0, 2700.0)


def held(rubber: str = "addition-cure-a10-slow", shop: ShopOrder | None = None) -> ToldStep:
    order = commission(mold=MoldOrder(rubber=rubber), shop=shop, cast=CastOrder(powder="none", backfill="none"))
    return told(job_of(order)).step("hold-glove")


def test_nothing_is_taken_from_a_rest_that_no_cup_holds() -> None:
    step = held()
    assert not [text for text in step.texts if "rest of the thickened" in text]
    assert any("flange holds it" in line for line in step.do)


def test_the_cup_of_knobs_is_told_part_by_part() -> None:
    """Three knobs of 1.08 g/ml and 8 % of waste: 7.2 g, A and B alike; each adds 2.2 g."""
    [line] = [line for line in held().do if "A cup of its own" in line]
    b, a = (float(mass) for mass in re.findall(r"[AB] ([\d.]+) g", line))
    assert a == b
    assert a + b == pytest.approx(3 * KNOB_ML * 1.08 * 1.08, rel=0.05)
    assert "thixotropic agent" in line
    assert "adds 2.2 g to" in line


def test_without_a_scale_it_is_told_in_milliliters() -> None:
    [line] = [line for line in held(shop=ShopOrder(measure=Measure.VOLUME, marks_ml=1.0)).do if "A cup of" in line]
    assert not re.search(r"\d g\b", line)
    assert "adds 2.05 ml to" in line


def test_latex_has_knobs_of_dry_scrap() -> None:
    step = held("latex")
    assert any("dry scrap" in line for line in step.do)
    assert not any("cup" in line for line in (*step.do, *step.needs))


@pytest.mark.parametrize("rubber", ["condensation-cure-a25", "urethane-a30", "addition-cure-a30-fast"])
def test_its_ratio_is_held(rubber: str) -> None:
    """Within the class's own tolerance, a tenth of a gram on the scale and syringes."""
    sheet = LIBRARY.rubber(rubber)
    cup = knob_cup(ShopOrder(scale_g=0.1), sheet, LIBRARY.thixotrope("fumed-silica"), LIFE_S)
    assert cup is not None
    assert cup.mass_g >= KNOBS * KNOB_ML * sheet.density_a_g_ml.low
    assert cup.tolerance_pct <= 5.0


def test_no_knobs_where_so_small_a_cup_is_not_to_be_measured() -> None:
    """A scale of a hundred grams holds no ratio of a few grams of two parts alike."""
    shop = ShopOrder(scale_g=100.0)
    assert knob_cup(shop, LIBRARY.rubber("urethane-a30"), LIBRARY.thixotrope("fumed-silica"), LIFE_S) is None


def test_no_knobs_that_the_spare_does_not_cover() -> None:
    """The spare is the largest cup of the coats: of 5 g it makes no three knobs of 2.2 g."""
    job = job_of(commission())
    small = tuple(replace(mix, parts=tuple(replace(p, mass_g=1.0) for p in mix.parts)) for mix in job.rubber.mixes)
    assert knob_cup_of(job) is not None
    assert knob_cup_of(replace(job, rubber=replace(job.rubber, mixes=small))) is None
