"""Hazard statements of flammable liquids against flash point and boiling point.

GHS chapter 2.6: below 23 degC and boiling above 35 degC is category 2, H225; from 23 to 60 degC category 3, H226.
"""

from __future__ import annotations

import pytest

from moldwright.materials import library

SOURCE = (
    "GHS chapter 2.6, flammable liquids: categories by flash point and boiling point (from memory)",
    "NIOSH Pocket Guide npgd0359, isopropyl alcohol: flash 53 degF, boils at 181 degF, irritates eyes, makes drowsy",
    "NIOSH Pocket Guide (2005) npgd0571, styrene: flash 88 degF",
)
FLAMMABLE = ("H224", "H225", "H226")


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32.0) / 1.8


def statement_for(flash_f: float, boils_f: float) -> str:
    if celsius(flash_f) < 23:
        return "H225" if celsius(boils_f) > 35 else "H224"
    return "H226"


@pytest.mark.parametrize(
    ("kind", "id_", "flash_f", "boils_f"), [("consumable", "isopropanol", 53, 181), ("resin", "polyester", 88, 293)]
)
def test_flammable_by_its_flash_point(kind: str, id_: str, flash_f: float, boils_f: float) -> None:
    said = {code for code in getattr(library(), kind)(id_).hazards if code in FLAMMABLE}
    assert said == {statement_for(flash_f, boils_f)}


def test_isopropanol_irritates_and_makes_drowsy() -> None:
    assert {"H319", "H336"} <= set(library().consumable("isopropanol").hazards)
