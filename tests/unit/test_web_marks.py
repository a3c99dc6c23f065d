"""Figures typed at a desk in German: read in German marks, or asked about. Marks by Unicode's CLDR, de; the readings of
our own are those of `test_units_marks.py`."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.at_desk import DeskHand, hand_at

METERS = {"answers": {"original.height": "1,25 m", "original.name": "Block 1.500"}}


@pytest.fixture(scope="module")
def here(tmp_path_factory: pytest.TempPathFactory) -> Iterator[DeskHand]:
    """A desk whose reader has German."""
    folder: Path = tmp_path_factory.mktemp("german")
    with hand_at(str(folder / "shop.db"), folder) as hand:
        hand.client.headers["accept-language"] = "de"
        yield hand


def test_a_lot_is_weighed_in_german_marks(here: DeskHand) -> None:
    lot = here.add("1,5 kg")
    assert lot["left"] == pytest.approx(1500.0)
    counted = here(f"/api/lots/{lot['id']}/count", amount="1,125 kg")["lot"]
    assert counted["left"] == pytest.approx(1125.0)


def test_what_could_be_thousands_is_asked_about_in_german(here: DeskHand) -> None:
    refused = here("/api/lots", 422, material="addition-cure-a10-slow-a", amount="1.500 kg")["said"]
    assert "1.500 kg" in refused["found"]
    assert "1500" in refused["remedy"]
    assert "1,5" in refused["remedy"]


def test_what_is_asked_for_is_typed_in_german_marks(here: DeskHand) -> None:
    """The name keeps its point: it is no figure."""
    draft = here("/api/take-in", **METERS)["id"]
    told = here(f"/api/take-in/{draft}/check", **METERS)
    assert not [each for each in told["wrong"] if each["key"] == "original.height"]
    assert "Block 1.500" in here.get(f"/take-in/{draft}")
    wrong = here(f"/api/take-in/{draft}/check", answers={"original.height": "1.250 mm"})["wrong"]
    assert [each for each in wrong if each["key"] == "original.height" and "1250" in each["remedy"]]


def test_a_recipe_is_typed_in_german_marks(here: DeskHand) -> None:
    kept = here("/api/recipes", name="Rot", kind="color", parts=[{"what": "Pigment", "mass": "2,125 g", "own": True}])
    assert kept["recipe"]["states"][-1]["mass_g"] == pytest.approx(2.125)
