"""What the sheets print for the pieces of a shell adds up to what they print for the whole."""

from __future__ import annotations

import re
from math import fsum

import pytest
from steps_context import context, measures
from told import told

from moldwright.commission.orders import MoldOrder, ShopOrder
from moldwright.plan.needs import NeedUnit
from moldwright.quantities.quantities import Quantities
from moldwright.units import mass_g, show_volume, volume_ml
from moldwright.units.system import UnitSystem

AREAS_MM2 = [30_000.0, 41_000.0, 57_000.0, 83_000.0, 110_000.0, 123_456.0, 219_000.0, 1_234_567.0]
UNITS = list(UnitSystem)
MIXED = ("fiber-gypsum", "gypsum-water", "gypsum-fiber")


def laid(area_mm2: float, units: UnitSystem, shell: str = "plaster bandage") -> Quantities:
    return context(
        mold=MoldOrder(shell=shell),
        shop=ShopOrder(units=units),
        volumes=measures(shell__area_mm2=area_mm2, shell__volume_ml=area_mm2 * 0.0081),
    )


def of_pieces(job: Quantities, pattern: str) -> list[str]:
    """What the needs of shell 2 and of shell 1 say."""
    made = told(job)
    found = [re.search(pattern, "; ".join(made.step(step).needs)) for step in ("shell-2", "shell-1")]
    return [match[1] for match in found if match]


def volume(text: str) -> float:
    """A volume as printed, "1 qt 3.2 fl oz" too [ml]."""
    big, _, small = text.partition(" qt ")
    return volume_ml(f"{big} qt") + volume_ml(small) if small else volume_ml(text)


def mass(text: str) -> float:
    big, _, small = text.partition(" lb ")
    return mass_g(f"{big} lb") + mass_g(small) if small else mass_g(text)


@pytest.mark.parametrize("area_mm2", AREAS_MM2)
def test_strips_of_the_pieces_are_all_strips(area_mm2: float) -> None:
    job = laid(area_mm2, UnitSystem.METRIC)
    assert job.bandage is not None
    first, last = (int(text) for text in of_pieces(job, r"(\d+) strip"))
    assert first + last == job.bandage.strips
    assert abs(first - last) <= 1


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("area_mm2", AREAS_MM2)
def test_water_of_the_pieces_is_all_water(area_mm2: float, units: UnitSystem) -> None:
    """As printed in the steps and on the list of needs."""
    job = laid(area_mm2, units)
    first, last = (volume(text) for text in of_pieces(job, r"ipping water, (.*?)[,;]"))
    need = next(need for need in job.needs if need.id == "dipping-water" and need.unit is NeedUnit.MILLILITER)
    assert first + last == pytest.approx(volume(show_volume(need.amount.likely, units)), abs=0.01)
    assert min(first, last) > 0


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("area_mm2", AREAS_MM2)
def test_the_buckets_of_the_pieces_are_all_that_is_bought(area_mm2: float, units: UnitSystem) -> None:
    job = laid(area_mm2, units, "fiber-reinforced gypsum")
    first, last = (mass(text) for text in of_pieces(job, r", ([^,]*?) in all"))
    whole_g = fsum(mix.mass_g for mix in job.shell_mixes)
    assert first + last == pytest.approx(whole_g, rel=0.01)  # as printed, to three figures
    assert sum(need.amount.likely for need in job.needs if need.id in MIXED) == pytest.approx(whole_g, abs=0.2)
