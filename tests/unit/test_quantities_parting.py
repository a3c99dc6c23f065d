"""Wax, talc and clay by hand from areas; rates, density and the wall's thickness: common practice, no source."""

from __future__ import annotations

from dataclasses import replace

import pytest

from moldwright.errors import InputRefused
from moldwright.geometry.seam_kind import Seam
from moldwright.materials import Shell, library
from moldwright.mold.measures import ShellMeasures
from moldwright.quantities.parting import parting

SHIPPED = library()
WAX = SHIPPED.wax("paste-wax")
LAID = ShellMeasures(
    area_mm2=100_000.0,
    volume_ml=900.0,
    seam=Seam.WALL,
    edges_mm=(0.0, 2000.0),
    seam_flange_mm=50.0,
    lap_mm=0.0,
    base_lip_mm=13.0,
)
OWN = """
[wax.paste-wax]
coverage_g_m2 = [20, 30, 50]
coats = 1
[consumable.talc]
rate_per_use = [10, 15, 30]
[consumable.clay]
density_g_ml = [1.9, 2.0, 2.1]
"""


def shell(id_: str) -> Shell:
    return SHIPPED.shell(id_)


def test_wax_covers_the_rubber_and_the_first_halfs_edge() -> None:
    """0.1 m2 and a seam of 2 m x 0.05 m, another 0.1 m2, at 30 g/m2 once: 6 g; talc goes on the rubber alone, 15 g/m2;
    a wall 200 x 5 x 1 cm is 1000 ml, by a hand a quarter off."""
    own = library({"own.toml": OWN})
    made = parting(shell("plaster-bandage"), own.wax("paste-wax"), LAID, own)
    for told, wanted in (
        (made.wax_g, (4.0, 6.0, 10.0)),
        (made.talc_g, (1.0, 1.5, 3.0)),
        (made.clay_g, (0.75 * 1900.0, 2000.0, 1.25 * 2100.0)),
    ):
        assert (told.low, told.likely, told.high) == pytest.approx(wanted)


def test_every_laid_shell_has_a_wall_and_a_printed_one_none() -> None:
    bandage, gypsum, printed = (
        parting(shell(id_), WAX, LAID, SHIPPED) for id_ in ("plaster-bandage", "fiber-gypsum", "printed")
    )
    assert bandage.clay_g == gypsum.clay_g
    assert gypsum.clay_g.likely == pytest.approx(1000.0 * 1.65)
    assert printed.clay_g.high == 0.0
    assert printed.wax_g == bandage.wax_g


def test_clay_without_a_density_is_refused() -> None:
    """A consumable may be sold by weight alone; a wall needs its density."""
    stripped = library({"own.toml": '[consumable.ball]\nname = "ball"\nunit = "g"\nper = "mold"\nrate_per_use = 1'})
    sheets = {kind: dict(rows) for kind, rows in stripped.sheets.items()}
    sheets["consumable"]["clay"] = stripped.consumable("ball")
    with pytest.raises(InputRefused) as refused:
        parting(shell("plaster-bandage"), WAX, LAID, type(stripped)(sheets))
    assert refused.value.code == "sheet-incomplete"


def test_a_lapped_seam_takes_no_clay_and_wax_for_a_hands_breadth() -> None:
    """0.1 m2 and 2 m of seam 90 mm wide, or as wide as a lap of 120 mm, at 30 g/m2 once."""
    own = library({"own.toml": OWN})
    lapped = replace(LAID, seam=Seam.LAP, seam_flange_mm=0.0, lap_mm=40.0)
    made = parting(shell("plaster-bandage"), own.wax("paste-wax"), lapped, own)
    assert made.clay_g.high == 0.0
    assert made.wax_g.likely == pytest.approx(30.0 * (0.1 + 2.0 * 0.09))
    wide = parting(shell("fiber-gypsum"), own.wax("paste-wax"), replace(lapped, lap_mm=120.0), own)
    assert wide.wax_g.likely == pytest.approx(30.0 * (0.1 + 2.0 * 0.12))
