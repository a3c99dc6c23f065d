"""Densities of elements and of calcite against printed values.

Source of the elements: as returned by the library `periodictable` 2.1.0 for Cu, Al, Fe, Zn;
source of calcite 2.71 and brass 70/30 8.53: handbook values, from memory.
Tolerance 0.5 %: the handbooks themselves differ in the third figure with purity and temperature.
"""

from __future__ import annotations

import pytest

from moldwright.materials import library

PRINTED_G_ML = {"copper": 8.96, "aluminum": 2.6989, "iron": 7.874, "zinc": 7.133, "marble": 2.71, "brass": 8.53}


@pytest.mark.parametrize(("powder", "printed"), PRINTED_G_ML.items())
def test_true_density_is_the_printed_one(powder: str, printed: float) -> None:
    figure = library().powder(powder).true_density_g_ml
    assert figure.likely == pytest.approx(printed, rel=0.005)
    assert "from memory" in figure.source
