"""The shipped classes lie inside the usual ranges of their kind.

Source: general ranges of mold rubbers and of powders' apparent densities, from memory (low confidence for powders).
"""

from __future__ import annotations

import pytest

from moldwright.materials import library

# chemistry: Shore A, tensile MPa, elongation %, tear kN/m, linear shrinkage %, density g/ml
RUBBERS = {
    "addition-cure silicone": ((0, 40), (1.5, 6), (250, 1000), (5, 25), (0, 0.1), (1.07, 1.2)),
    "condensation-cure silicone": ((10, 40), (2, 4.5), (200, 500), (5, 25), (0.2, 1), (1.1, 1.3)),
    "urethane rubber": ((20, 80), (1.5, 10), (300, 1000), (5, 40), (0.1, 0.3), (1.0, 1.1)),
    "latex": ((30, 45), (15, 25), (600, 900), (20, 50), (5, 15), (0.93, 1.0)),
}
LOOSE = {
    "bronze": (2.5, 3.5),
    "copper": (2.5, 3.5),
    "aluminum": (0.9, 1.3),
    "iron": (2.5, 3.0),
    "marble": (1.0, 1.4),
}


@pytest.mark.parametrize("rubber", [r.id for r in library().all("rubber")])
def test_rubber_is_usual_for_its_class(rubber: str) -> None:
    r = library().rubber(rubber)
    figures = (r.shore_a, r.tensile_mpa, r.elongation_pct, r.tear_kn_m, r.shrinkage_pct, r.density_a_g_ml)
    for figure, (low, high) in zip(figures, RUBBERS[r.chemistry], strict=True):
        assert low <= figure.low <= figure.high <= high, figure


@pytest.mark.parametrize(("powder", "usual"), LOOSE.items())
def test_loose_powder_is_usual(powder: str, usual: tuple[float, float]) -> None:
    figure = library().powder(powder).apparent_density_g_ml
    assert (figure.low, figure.high) == usual
    assert "low confidence" in figure.source


def test_flake_is_far_lighter_than_atomized_powder() -> None:
    flake, atomized = library().powder("bronze-flake"), library().powder("bronze")
    assert flake.apparent_density_g_ml.high < 0.5 * atomized.apparent_density_g_ml.low
