"""What is summed from the measures of a mold: by hand."""

from __future__ import annotations

import pytest

from moldwright.mold.measures import FillSpot, GloveMeasures, SpotKind


def glove(fill_ml: float, crevice_ml: float = 0.0) -> GloveMeasures:
    spots = (
        FillSpot((0.0, 0.0, 0.0), 1.0, 0.7, SpotKind.CREVICE),
        FillSpot((0.0, 0.0, 0.0), 1.0, 5.0, SpotKind.UNDERCUT),
    )
    return GloveMeasures((1.5, 2.5), 3.0, fill_ml, spots, crevice_ml)


def test_the_whole_glove() -> None:
    assert glove(10.0).volume_ml == 17.0


def test_the_share_of_crevices() -> None:
    """Of 10 ml of fill 4 ml are crevices, films included; never more than all, never less than nothing."""
    assert glove(10.0, 4.0).crevice_share == pytest.approx(0.4)
    assert glove(10.0, 11.0).crevice_share == 1.0
    assert glove(0.0, 1.0).crevice_share == 0.0
    assert glove(10.0, -1.0).crevice_share == 0.0
    assert glove(0.5, 0.2).crevice_share == pytest.approx(0.4)
