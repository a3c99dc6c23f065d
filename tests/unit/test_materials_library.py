"""The shipped classes are whole, sound and light to load."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import fields

import pytest

from moldwright.errors import InputRefused
from moldwright.materials import Figure, Sheet, library
from moldwright.materials.check import check_fields
from moldwright.materials.kinds import KINDS
from moldwright.materials.mixture import mixed_density_g_ml
from moldwright.materials.read_sheet import read_tables
from moldwright.materials.shipped import SHEET_FILES, shipped

RUBBERS = {f"addition-cure-a{hardness}-{pace}" for hardness in (10, 20, 30) for pace in ("slow", "fast")} | {
    "condensation-cure-a25",
    "urethane-a30",
    "latex",
}
RESINS = {"urethane-fast", "urethane-standard", "urethane-clear", "epoxy-slow", "polyester", "modified-gypsum"}
POWDERS = {"bronze", "copper", "brass", "aluminum", "iron", "nickel-silver", "marble", "microballoons"}
SHELLS = {"plaster-bandage", "fiber-gypsum", "printed"}


@pytest.mark.parametrize(
    ("kind", "asked"), [("rubber", RUBBERS), ("resin", RESINS), ("powder", POWDERS), ("shell", SHELLS)]
)
def test_the_classes_of_the_specification_are_there(kind: str, asked: set[str]) -> None:
    assert asked <= {sheet.id for sheet in library().all(kind)}


@pytest.mark.parametrize("kind", ["release", "sealer", "wax", "pigment", "thixotrope", "consumable"])
def test_what_is_used_beside_them_is_there(kind: str) -> None:
    assert library().all(kind)


def test_shipped_data_passes_its_own_checks() -> None:
    for name in SHEET_FILES:
        entries, wrong = read_tables(shipped(name), None)
        assert entries
        assert wrong == ()
        for entry in entries:
            assert entry.findings == (), entry.where
            assert check_fields(entry.kind, entry.where, entry.fields) == (), entry.where


def _all_sheets() -> list[Sheet]:
    return [sheet for kind in KINDS for sheet in library().all(kind)]


def test_every_figure_tells_its_source_and_unit() -> None:
    for sheet in _all_sheets():
        figures = [getattr(sheet, f.name) for f in fields(sheet)]
        flat = [f for value in figures for f in (value if isinstance(value, tuple) else (value,))]
        for figure in flat:
            if isinstance(figure, Figure):
                assert figure.source.strip(), sheet.id
                assert figure.unit, sheet.id


def test_every_shipped_price_is_marked_as_a_placeholder() -> None:
    packs = [pack for sheet in _all_sheets() for pack in sheet.packs]
    assert packs
    assert all(pack.placeholder and pack.amount > 0 for pack in packs)


def test_every_sheet_can_be_bought() -> None:
    assert [sheet.id for sheet in _all_sheets() if not sheet.packs] == []


@pytest.mark.parametrize("asked", ["plaster bandage", "Plaster Bandage", "plaster-bandage"])
def test_a_lookup_takes_id_or_name(asked: str) -> None:
    assert library().shell(asked).id == "plaster-bandage"


def test_an_unknown_material_is_refused_with_the_nearest() -> None:
    with pytest.raises(InputRefused, match="bronze") as refused:
        library().powder("bronce")
    assert refused.value.code == "unknown-material"


def test_an_unknown_kind_is_refused() -> None:
    with pytest.raises(InputRefused, match="rubber"):
        library().all("ruber")


def test_latex_is_one_part_and_dries_to_its_solids() -> None:
    latex = library().rubber("latex")
    assert latex.density_b_g_ml is None
    assert latex.ratio_weight == (1.0, 0.0)
    assert latex.solids_pct.high < 100
    assert mixed_density_g_ml(latex) == latex.density_a_g_ml.range


def test_a_two_part_mix_lies_between_its_parts() -> None:
    for resin in library().all("resin"):
        sheet = library().resin(resin.id)
        assert sheet.density_b_g_ml is not None
        low, high = sorted((sheet.density_a_g_ml.likely, sheet.density_b_g_ml.likely))
        assert low <= mixed_density_g_ml(sheet).likely <= high


def test_loading_imports_nothing_heavy() -> None:
    code = (
        "import sys; from moldwright.materials import library; library(); import moldwright.materials.compatibility;"
        "print(sorted({m.split('.')[0] for m in sys.modules} & {'numpy', 'scipy', 'numba', 'trimesh', 'igl', 'rich'}))"
    )
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert out.stdout.strip() == "[]"
