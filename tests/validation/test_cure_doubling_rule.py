"""The rule of thumb that a cure doubles its rate every 10 degC. Source: common rule, from memory. Tolerance 0.2 %."""

from __future__ import annotations

import pytest

from moldwright.cure.potlife import rate_ratio

SOURCE = ("Common rule, a cure doubles its rate every 10 degC (from memory)", "Arrhenius' law; by hand")


def test_the_rule_is_about_51_kj_mol_near_room_temperature() -> None:
    """A doubling from 20 to 30 degC is R ln 2 / (1/293.15 - 1/303.15) = 51.2 kJ/mol (by hand)."""
    assert rate_ratio(51.2, 20, 30) == pytest.approx(2.0, rel=2e-3)


@pytest.mark.parametrize(("temperature_c", "life_min"), [(33.0, 10.0), (18.0, 28.3)])
def test_arrhenius_keeps_near_the_rule(temperature_c: float, life_min: float) -> None:
    """20 min at 23 degC, a doubling every 10: 10.0 at 33, 28.3 at 18 (the rule); the law with its energy within 2 %."""
    assert 20.0 / rate_ratio(51.2, 23.0, temperature_c) == pytest.approx(life_min, rel=0.02)
