"""Whatever the mold measures: the cups sum to coats, flange and fill, and the parts to their cups."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from moldwright.commission.orders import ShopOrder
from moldwright.materials import library
from moldwright.mold.coats import laid_out
from moldwright.mold.measures import FillSpot, GloveMeasures, SpotKind
from moldwright.plan.mixes import MixFor, MixKind
from moldwright.quantities.rubber import rubber_quantities
from moldwright.ranges import Range

ML = st.floats(0.5, 4000.0)
RUBBERS = st.sampled_from(["addition-cure-a10-slow", "condensation-cure-a25", "latex"])


@settings(max_examples=60, deadline=None)
@given(
    coats=st.tuples(ML, ML, ML),
    flange=st.one_of(st.just(0.0), ML),
    fill=st.one_of(st.just(0.0), ML),
    crevices=st.floats(0, 1),
    scale=st.sampled_from([0.01, 0.1, 1.0]),
    waste=st.floats(0, 0.3),
    rubber=RUBBERS,
)
def test_mixes_sum_to_needs(
    coats: tuple[float, float, float],
    flange: float,
    fill: float,
    crevices: float,
    scale: float,
    waste: float,
    rubber: str,
) -> None:
    spots = (FillSpot((0.0, 0.0, 5.0), 3.0, fill * crevices, SpotKind.CREVICE),) if fill else ()
    measures = GloveMeasures(coats, flange, fill, spots, fill * crevices)
    shop = ShopOrder(scale_g=scale, waste=waste, cup_ml=2000.0)
    layers = laid_out(4.0, (), library().rubber(rubber))
    made = rubber_quantities(
        shop,
        library().rubber(rubber),
        library().thixotrope("silicone-thixotrope"),
        layers,
        measures,
        Range(2000.0, 2700.0, 3500.0),
    )
    needs = [coat.mixed_g.likely for coat in made.coats]
    whole = sum(needs) + made.flange.mixed_g.likely + made.fill.mixed_g.likely
    assert sum(mix.mass_g for mix in made.mixes) == pytest.approx(whole, abs=scale * 1e-3)
    for coat, need in zip(made.coats, needs, strict=True):
        mine = [mix for mix in made.mixes if mix.for_ == MixFor(MixKind.COAT, coat.id)]
        carried = sum(mix.mass_g for mix in mine)
        assert sum(mix.parts[-1].scale_reads_g for mix in mine) == pytest.approx(
            carried, abs=scale * len(mine) * 0.5001
        )
        assert carried >= need - scale * 1e-3
    assert made.flange.mixed_g.low <= made.flange.mixed_g.likely <= made.flange.mixed_g.high
