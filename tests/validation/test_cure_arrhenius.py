"""Rate of cure against temperature.

Arrhenius' law by hand, k2 / k1 = exp(E / R (1 / T1 - 1 / T2)), R = 8.314463 J/(mol K); tolerance 0.1 % (the printed
digits). The activation energies of the sheets must hold what was measured on their kind of resin.
"""

from __future__ import annotations

import pytest

from moldwright.cure.potlife import pot_life_s, rate_ratio
from moldwright.materials import library

SULTAN = "Sultan & Busnel, J. Therm. Anal. Calorim. 83 (2006) 355-359 (abstract): urethanes, activation and heat"
MDI = "Influences of temperature and humidity on polyether-based polyurethane curing quality (2013, abstract)"
ETHYLENEDIAMINE = "Curing reaction of epoxy resins with diamines (abstract): 14 kcal/mol by the autocatalytic path"
PRIMARY_AMINE = "Thermochim. Acta 447 (2006) 167-177 (abstract): epoxy and primary amine, 55 to 60 kJ/mol"
M_PDA = "Jawad, Study of the cure reaction of DGEBA with m-phenylene diamine (abstract): 63.6 and 70.7 kJ/mol"
PEROXIDE = "J. Appl. Polym. Sci. 102 (2006) 1870-1876 (abstract): polyester, peroxide and cobalt, 40 to 60 kJ/mol"
LATEX = "Chen et al., Rubber Chem. Technol. 86 (2013) no. 1 (abstract): drying of prevulcanized film, 39.9 kJ/mol"
SOURCE = ("Arrhenius' law; by hand", SULTAN, MDI, ETHYLENEDIAMINE, PRIMARY_AMINE, M_PDA, PEROXIDE, LATEX)
MEASURED_KJ_MOL = [
    ("resin", "urethane-fast", 77.0),
    ("resin", "urethane-fast", 43.59),
    ("resin", "urethane-standard", 77.0),
    ("resin", "urethane-standard", 43.59),
    ("rubber", "urethane-a30", 77.0),
    ("rubber", "urethane-a30", 43.59),
    ("resin", "urethane-clear", 70.0),
    ("resin", "urethane-clear", 50.0),
    ("resin", "epoxy-slow", 14 * 4.184),
    ("resin", "epoxy-slow", 55.0),
    ("resin", "epoxy-slow", 70.7),
    ("resin", "polyester", 40.0),
    ("resin", "polyester", 60.0),
    ("rubber", "latex", 39.9),
]


@pytest.mark.parametrize(("activation", "faster"), [(50, 1.967), (70, 2.579), (77, 2.835)])
def test_rate_from_20_to_30_c(activation: float, faster: float) -> None:
    assert rate_ratio(activation, 20, 30) == pytest.approx(faster, rel=1e-3)


@pytest.mark.parametrize(("kind", "id_", "measured"), MEASURED_KJ_MOL)
def test_the_sheets_range_holds_what_was_measured(kind: str, id_: str, measured: float) -> None:
    """To the figure's last printed digit."""
    energy = getattr(library(), kind)(id_).activation_kj_mol
    assert energy.low - 0.05 <= measured <= energy.high + 0.05


def test_an_aliphatic_urethane_is_not_given_an_aromatic_ones_energy() -> None:
    """Tin-catalyzed with oxypropylated polyols: aliphatic 70 +- 5 kJ/mol, aromatic about 77."""
    assert library().resin("urethane-clear").activation_kj_mol.likely == pytest.approx(70, abs=5)
    assert library().resin("urethane-clear").activation_kj_mol.high < 77


def test_room_temperature_polyester_is_not_given_a_hot_starts_energy() -> None:
    """80 to 90 kJ/mol belongs to thermal initiation."""
    assert library().resin("polyester").activation_kj_mol.high < 80


def test_pot_life_spreads_by_the_energies() -> None:
    """180 s (135 to 240) at 23 degC; at 33 degC divided by exp(E / R (1/296.15 - 1/306.15)): 1.783, 2.216, 2.777 for
    43.6, 60 and 77 kJ/mol, by hand."""
    at_33 = pot_life_s(library().resin("urethane-fast"), 33.0)
    assert at_33.likely == pytest.approx(180 / 2.2165, rel=1e-3)
    assert at_33.low == pytest.approx(135 / 2.777, rel=1e-3)
    assert at_33.high == pytest.approx(240 / 1.7831, rel=1e-3)
