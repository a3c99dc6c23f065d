"""Pot life at the shop's temperature."""

from __future__ import annotations

import pytest

from moldwright.cure.potlife import pot_life_s, rate_ratio
from moldwright.errors import InputRefused
from moldwright.materials import library


def test_at_the_sheets_temperature_it_is_the_sheets() -> None:
    sheet = library().rubber("addition-cure-a20-fast")
    assert pot_life_s(sheet, sheet.pot_life_temperature_c.likely) == sheet.pot_life_s.range


def test_warmer_is_shorter_and_the_spread_grows() -> None:
    sheet = library().resin("epoxy-slow")
    lives = [pot_life_s(sheet, t) for t in (13.0, 23.0, 33.0)]
    assert lives[0].likely > lives[1].likely > lives[2].likely
    spread = [life.high / life.low for life in lives]
    assert spread[0] > spread[1] < spread[2]


@pytest.mark.parametrize("temperature_c", [-1.0, 61.0, float("nan"), float("inf")])
def test_outside_its_range_it_is_refused(temperature_c: float) -> None:
    with pytest.raises(InputRefused, match="temperature-out-of-range"):
        pot_life_s(library().rubber("latex"), temperature_c)


def test_impossible_arguments_are_refused() -> None:
    with pytest.raises(InputRefused, match="activation"):
        rate_ratio(-1.0, 20, 30)
