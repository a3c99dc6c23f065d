"""Hazard pictograms by statement, and which is left out beside a graver one."""

from __future__ import annotations

import pytest

from moldwright.materials import library
from moldwright.materials.pictograms import Pictogram, pictograms
from moldwright.materials.shipped import shipped
from moldwright.web.render import environment

SOURCE = (
    "GHS annex 1, label elements: flammable liquids 2 and 3 flame; skin corrosion 1 and eye damage 1 corrosion; acute "
    "toxicity 2 and 3 skull, 4 exclamation mark; sensitization of the airways, carcinogenicity, aspiration health "
    "hazard; skin sensitization, irritation exclamation mark; aquatic acute 1, chronic 1, 2 environment (from memory)",
    "GHS 1.4.10.5.3.1: skull before exclamation mark; corrosion before it for skin and eye irritation; health hazard "
    "for sensitization of the airways before it for skin sensitization and irritation (from memory)",
)
WITHOUT = {"H229", "H412"}
"""Pressurized container alone, and chronic hazard to water of category 3: no pictogram (GHS annex 1)."""


@pytest.mark.parametrize(
    ("codes", "shown"),
    [
        ("H225 H319 H336", "flame exclamation"),
        ("H314", "corrosion"),
        ("H330 H315 H317 H334", "skull health"),
        ("H331 H302", "skull"),
        ("H331 H302 H315", "skull exclamation"),
        ("H314 H302", "corrosion exclamation"),
        ("H318 H315", "corrosion"),
        ("H318 H317", "corrosion exclamation"),
        ("H332 H334 H317", "health exclamation"),
        ("H351 H317", "health exclamation"),
        ("H304 H411 H226", "flame health environment"),
        ("H412", ""),
        ("", ""),
    ],
)
def test_pictograms_are_the_ghs_s(codes: str, shown: str) -> None:
    assert [str(each) for each in pictograms(codes.split())] == shown.split()


def test_every_statement_that_has_one_is_given_it() -> None:
    hazards = shipped("hazards")
    given = [code for codes in hazards["pictogram"].values() for code in codes]
    assert len(given) == len(set(given))
    assert set(hazards["statements"]) - set(given) == WITHOUT
    assert set(given) <= set(hazards["statements"])


def test_a_solvent_of_the_library_shows_what_its_bottle_shows() -> None:
    """Isopropyl alcohol: flame and exclamation mark (GHS annex 1 for H225, H319, H336)."""
    assert pictograms(library().consumable("isopropanol").hazards) == (Pictogram.FLAME, Pictogram.EXCLAMATION)


def test_each_is_drawn_otherwise_and_named() -> None:
    macro = environment().get_template("parts/signs.html").module.ghs  # type: ignore[attr-defined]
    drawn = [str(macro(each)) for each in Pictogram]
    assert len(set(drawn)) == len(Pictogram)
    assert all("Hazard sign: " in each for each in drawn)
