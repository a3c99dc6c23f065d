"""Pot life at the shop's temperature."""

from __future__ import annotations

from dataclasses import dataclass
from math import cbrt, exp

from moldwright.errors import InputRefused
from moldwright.materials.kinds import TwoPart
from moldwright.ranges import Range
from moldwright.units.constants import GAS_CONSTANT_J_MOL_K, ZERO_C_K

COLDEST_C, HOTTEST_C = 0.0, 60.0


def rate_ratio(activation_kj_mol: float, from_c: float, to_c: float) -> float:
    """How many times faster a reaction runs at one temperature than at another.

    k2 / k1 = exp(E / R (1 / T1 - 1 / T2))

    Parameters
    ----------
    activation_kj_mol : activation energy E, zero or above [kJ/mol].
    from_c : temperature of rate k1 [degC].
    to_c : temperature of rate k2 [degC].

    Valid from 0 to 60 degC, where one reaction governs.

    >>> round(rate_ratio(50, 20, 30), 3)
    1.967

    Source: Arrhenius' law; R from the 2019 SI (CODATA 2018).
    """
    if not 0.0 <= activation_kj_mol < 1000.0:
        raise InputRefused("activation-not-possible", activation_kj_mol, "0 to 1000", "kJ/mol", "Read the sheet again.")
    one, two = (_kelvin(t) for t in (from_c, to_c))
    return exp(1000.0 * activation_kj_mol / GAS_CONSTANT_J_MOL_K * (1.0 / one - 1.0 / two))


@dataclass(frozen=True, slots=True)
class ShopLife:
    """A material at the shop's temperature: its pot life [s], and by how much all its times differ from its sheet's."""

    pot_life_s: Range
    time_factor: float


def shop_life(sheet: TwoPart, temperature_c: float) -> ShopLife:
    """Pot life at the shop's temperature, and the factor of tack, demold and cure times.

    t(T) = t_sheet f, f = exp(E / R (1 / T - 1 / T_sheet))

    Parameters
    ----------
    sheet : a rubber or a resin.
    temperature_c : temperature of the shop and the parts [degC].

    Valid as `pot_life_s`. Source: one activation energy for all of a material's cure: common practice, no source.
    """
    factor = rate_ratio(sheet.activation_kj_mol.likely, temperature_c, sheet.pot_life_temperature_c.likely)
    return ShopLife(pot_life_s(sheet, temperature_c), factor)


def pot_life_s(sheet: TwoPart, temperature_c: float) -> Range:
    """Pot life of a rubber or resin at the shop's temperature, in the mass that the sheet states.

    t = t_sheet exp(E / R (1 / T - 1 / T_sheet))

    Parameters
    ----------
    sheet : a rubber or a resin; its activation energy's range widens the result away from the sheet's temperature.
    temperature_c : temperature of the shop and the parts [degC].

    Valid from 0 to 60 degC and near the sheet's mass: a larger mass heats itself and gels sooner.

    >>> from moldwright.materials import library
    >>> pot_life_s(library().resin("urethane-fast"), 23.0)
    Range(low=135.0, likely=180.0, high=240.0)

    Source: Arrhenius' law; activation energies as the sheet tells.
    """
    reference_c = sheet.pot_life_temperature_c.likely
    energies = (sheet.activation_kj_mol.low, sheet.activation_kj_mol.likely, sheet.activation_kj_mol.high)
    factors = [rate_ratio(energy, temperature_c, reference_c) for energy in energies]
    life = sheet.pot_life_s
    return Range(life.low * min(factors), life.likely * factors[1], life.high * max(factors))


def mass_factor(mass_g: float, stated_g: float) -> float:
    """By how much the pot life shortens in a cup heavier than the one it is stated for; never above 1.

    f = min(1, (m_stated / m)^(1/3))

    Parameters
    ----------
    mass_g : mass in the cup, above zero [g].
    stated_g : mass that the sheet's pot life is stated for, above zero [g].

    Valid up to some ten times the stated mass, for mixes that heat themselves: urethane, epoxy, polyester. A lighter
    cup would last longer; that is not counted on.

    >>> round(mass_factor(800.0, 100.0), 6), mass_factor(50.0, 100.0)
    (0.5, 1.0)

    Source: our own rule: a cup of the same shape loses heat through its surface, which per mass falls as m^(-1/3).
    """
    if not (mass_g > 0 and stated_g > 0):
        raise InputRefused("mass-not-possible", min(mass_g, stated_g), 0, "g", "Masses are above 0.")
    return min(1.0, cbrt(stated_g / mass_g))


def _kelvin(temperature_c: float) -> float:
    if not COLDEST_C <= temperature_c <= HOTTEST_C:
        limit = f"{COLDEST_C:g} to {HOTTEST_C:g}"
        raise InputRefused("temperature-out-of-range", temperature_c, limit, "degC", "Bring shop and parts into it.")
    return temperature_c + ZERO_C_K
