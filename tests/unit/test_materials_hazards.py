"""Cautions stand on what needs them and defer to the supplier's safety data sheet."""

from __future__ import annotations

import pytest

from moldwright.errors import InputRefused
from moldwright.materials import Sheet, library
from moldwright.materials.hazards import cautions_for, deference, statement
from moldwright.materials.kinds import KINDS

# Usual statements by class, from memory; the supplier's sheet overrides them.
ISOCYANATE = {"H315", "H317", "H319", "H332", "H334", "H335", "H351", "H373"}
USUAL = [
    ("resin", "urethane-fast", ISOCYANATE),
    ("resin", "urethane-standard", ISOCYANATE),
    ("rubber", "urethane-a30", ISOCYANATE),
    ("rubber", "condensation-cure-a25", {"H317", "H341", "H360FD", "H372", "H410"}),
    ("consumable", "isopropanol", {"H225", "H319", "H336"}),
    ("wax", "dark-wax", {"H226", "H304", "H336", "H372", "H411"}),
    ("powder", "aluminum", {"H228", "H261"}),
    ("powder", "bronze-flake", {"H228", "H302", "H400", "H410"}),
    ("resin", "polyester", {"H242", "H314", "H318"}),
    ("resin", "epoxy-slow", {"H302", "H312", "H314", "H317"}),
]


@pytest.mark.parametrize(("kind", "id_", "codes"), USUAL)
def test_usual_statements_are_there(kind: str, id_: str, codes: set[str]) -> None:
    sheet: Sheet = getattr(library(), kind)(id_)
    assert codes <= set(sheet.hazards)
    said = cautions_for(sheet)
    assert all(any(text.startswith(f"{code}: ") for text in said) for code in codes)


def test_every_sheet_defers_to_the_safety_data_sheet() -> None:
    for kind in KINDS:
        for sheet in library().all(kind):
            assert cautions_for(sheet)[-1] == deference()
    assert "safety data sheet" in deference()
    assert "local code" in deference()
    assert "licensed practice" in deference()


@pytest.mark.parametrize(
    ("kind", "id_", "word"),
    [
        ("resin", "urethane-fast", "asthma"),
        ("shell", "plaster-bandage", "limb"),
        ("shell", "fiber-gypsum", "never goes over skin"),
        ("resin", "modified-gypsum", "hot"),
        ("powder", "marble", "crystalline silica"),
        ("powder", "bronze", "dust mask"),
        ("consumable", "knife", "cut away"),
        ("consumable", "isopropanol", "isocyanate"),
        ("rubber", "latex", "vinyl gloves"),
        ("sealer", "shellac", "flame"),
        ("resin", "polyester", "goggles"),
    ],
)
def test_the_usual_caution_stands_on_the_material(kind: str, id_: str, word: str) -> None:
    assert any(word in text.casefold() for text in cautions_for(getattr(library(), kind)(id_)))


def test_an_unknown_statement_is_refused() -> None:
    with pytest.raises(InputRefused, match="unknown-hazard"):
        statement("H999")
