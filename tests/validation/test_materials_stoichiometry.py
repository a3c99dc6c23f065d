"""Figures in the data that stoichiometry and enthalpies of formation fix.

Water and isocyanate make one mole of CO2 per mole of water; ideal gas at 20 degC and 101 325 Pa. Hydration of the
hemihydrate: enthalpies of formation -1 577 897 J/mol (bassanite) and -2 022 946 J/mol (gypsum) with -285 830 J/mol for
1.5 water give 16.30 kJ/mol, 112.3 J per g of hemihydrate (145.149 g/mol); other tables 96.6 to 118.1.
"""

from __future__ import annotations

import re

import pytest

from moldwright.materials import library
from moldwright.materials.compatibility import judge
from moldwright.materials.rules import rule_words

SULTAN = "Sultan & Busnel, J. Therm. Anal. Calorim. 83 (2006) 355-359 (abstract): urethanes, activation and heat"
SPRINGER = "Study of the Polyurethane Reactions by DSC, doi 10.1007/978-94-009-0767-6_11 (abstract): 75 to 80 kJ/eq"
SOURCE = (
    "Stoichiometry with IUPAC abridged standard atomic weights (from memory)",
    "Ideal gas; R from the 2019 SI (CODATA 2018; from memory)",
    "BRGM Thermoddem, species 57 (bassanite) and 284 (gypsum): enthalpies of formation",
    "PMC7233307, Table 3: hydration of hemihydrate, other tables 96.6 to 118.1 J/g",
    SULTAN,
    SPRINGER,
    "Lucas, Borrajo & Williams, Polymer 34 (1993) 3216-3219 (abstract): 66 kJ per mole of double bonds",
)


def test_liters_of_gas_from_a_gram_of_water() -> None:
    liters = 1.0 / 18.015 * 8.314462618 * 293.15 / 101325 * 1000
    assert liters == pytest.approx(1.335, rel=5e-3)
    found = judge("glass", "", "", "addition-cure-a10-slow", "urethane-fast", "bronze", "printed", library())
    told = [m for f in found if (m := re.search(r"1 g of water makes ([\d.]+) liters", rule_words()[f.rule].reason))]
    assert [float(m[1]) for m in told] == [pytest.approx(liters, rel=0.03)]


def test_heat_of_modified_gypsum() -> None:
    """2 022 946 - 1 577 897 - 1.5 x 285 830 = 16 304 J/mol, over 145.149 g/mol 112.3 J per g of hemihydrate; over 100 g
    of powder and 22 g of water 92.0 J/g of slurry; by the other tables 79.2 to 96.8."""
    sheet = library().resin("modified-gypsum")
    powder = sheet.ratio_weight[0] / sum(sheet.ratio_weight)
    hydration = (2_022_946 - 1_577_897 - 1.5 * 285_830) / 145.149
    assert sheet.heat_j_g.likely == pytest.approx(hydration * powder, rel=0.005)
    assert sheet.heat_j_g.low == pytest.approx(96.6 * powder, rel=0.005)
    assert sheet.heat_j_g.high == pytest.approx(118.1 * powder, rel=0.005)


def test_an_aliphatic_urethane_is_hotter_than_an_aromatic_one() -> None:
    """72 against 55 kJ per mole of NCO: 31 % more at the same share of NCO; the high end goes to 80."""
    aromatic, aliphatic = (library().resin(f"urethane-{name}").heat_j_g for name in ("standard", "clear"))
    assert aliphatic.likely / aromatic.likely == pytest.approx(72 / 55, rel=0.01)
    assert aliphatic.high / aromatic.high == pytest.approx(80 / 55, rel=0.01)
    assert library().resin("urethane-fast").heat_j_g == aromatic


def test_heat_of_polyester_is_that_of_its_double_bonds() -> None:
    """Styrene (104.15 g/mol) at 40 % alone holds 3.84 mmol/g: 253 J/g; the unsaturated part only adds to it."""
    assert library().resin("polyester").heat_j_g.low >= 0.40 / 104.15 * 66_000 * 0.98
