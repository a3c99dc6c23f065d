"""What the cups of each coat carry, what is lost on the way, and where the fill goes: by hand."""

import pytest
from quantities_sample import VOLUMES, commission, job_of, volumes

from moldwright.commission.orders import CoatOrder, MoldOrder, ShopOrder
from moldwright.errors import ComputationFailed
from moldwright.materials import library
from moldwright.mold.coats import laid_out
from moldwright.mold.measures import FillSpot, GloveMeasures, SpotKind
from moldwright.plan.coats import Gesture
from moldwright.plan.mold import PartPlan
from moldwright.quantities.mixed import TOOL_LOSS_G, mixed_g
from moldwright.quantities.rubber import build_index, carried_steps, rubber_cup_limit, rubber_quantities
from moldwright.ranges import Range

LIBRARY = library()
SILICONE, LATEX = LIBRARY.rubber("addition-cure-a10-slow"), LIBRARY.rubber("latex")
FOUR = [CoatOrder(f"coat {n}", thick_mm) for n, thick_mm in enumerate((1.0, 1.0, 2.0, 4.0))]
NOTHING = PartPlan(0.0, 0.0, Range.exactly(0.0))


def part(grams: float) -> PartPlan:
    return PartPlan(grams, grams, Range.exactly(grams))


def test_crevices_go_with_the_second_coat_and_undercuts_with_the_last() -> None:
    """Of 100 g of fill three tenths are crevices; coats of 1, 1, 2 and 4 mm need 10 g each."""
    coats = laid_out(8.0, FOUR)
    ten = [Range.exactly(10.0)] * 4
    assert carried_steps(coats, ten, NOTHING, part(100.0), 0.3, 0.1) == (100, 400, 100, 800)
    assert carried_steps(coats[:1], ten[:1], NOTHING, part(100.0), 0.3, 0.1) == (1100,)


def test_the_flange_is_laid_with_every_coat_by_its_thickness() -> None:
    """80 g of flange on coats of 1, 1, 2 and 4 mm: 10, 10, 20 and 40 g."""
    coats = laid_out(8.0, FOUR)
    none = [Range.exactly(0.0)] * 4
    assert carried_steps(coats, none, part(80.0), NOTHING, 0.5, 1.0) == (10, 10, 20, 40)


def test_the_first_build_coat() -> None:
    assert [build_index(count) for count in (1, 2, 3, 8)] == [0, 1, 1, 1]


