"""Rate of cure against temperature.

Source: Arrhenius' law, computed by hand; activation energies 50 to 77 kJ/mol of urethanes: Sultan & Busnel, kinetic
study of polyurethanes by DSC (abstract read). Tolerance 0.1 % (the printed digits).
"""

from __future__ import annotations

import pytest

from moldwright.cure.potlife import pot_life_s, rate_ratio
from moldwright.materials import library


@pytest.mark.parametrize(("activation", "faster"), [(50, 1.967), (70, 2.579), (77, 2.835)])
def test_rate_from_20_to_30_c(activation: float, faster: float) -> None:
    assert rate_ratio(activation, 20, 30) == pytest.approx(faster, rel=1e-3)


@pytest.mark.parametrize("resin", ["urethane-fast", "urethane-standard", "urethane-clear"])
def test_urethanes_carry_the_cited_energies(resin: str) -> None:
    energy = library().resin(resin).activation_kj_mol
    assert (energy.low, energy.high) == (50.0, 77.0)
    assert "Sultan & Busnel" in energy.source


def test_pot_life_spreads_by_the_energies() -> None:
    """180 s (135 to 240) at 23 degC; at 33 degC divided by exp(E/R (1/296.15 - 1/306.15)): 1.941, 2.217, 2.777 for
    50, 60 and 77 kJ/mol (reckoned by hand with R = 8.314463 J/(mol K))."""
    at_33 = pot_life_s(library().resin("urethane-fast"), 33.0)
    assert at_33.likely == pytest.approx(180 / 2.217, rel=1e-3)
    assert at_33.low == pytest.approx(135 / 2.777, rel=1e-3)
    assert at_33.high == pytest.approx(240 / 1.941, rel=1e-3)
