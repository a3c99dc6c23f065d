"""A resin filled with powder: how much room the mix really takes, how much of it is powder."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.errors import InputRefused

ONE_SIZE_PACKING = 0.64
"""Densest random packing of equal spheres by volume, 0.64 +- 0.02: Berryman, Phys. Rev. A 27 (1983) 1053. Grains of
many sizes pack denser: Desmond & Weeks, Phys. Rev. E 90 (2014) 022204."""
TWO_SIZES_PACKING = ONE_SIZE_PACKING + (1.0 - ONE_SIZE_PACKING) * ONE_SIZE_PACKING
"""Grains far smaller fill the gaps between the large ones as densely: the most that two sizes reach; exact."""


@dataclass(frozen=True, slots=True)
class FilledMix:
    """`yield_pct`: real volume over the sum of the measured volumes; `density_g_ml`: of the air-free mix."""

    yield_pct: float
    loading_wt_pct: float
    loading_vol_pct: float
    density_g_ml: float


def filled_mix(
    a_ml: float,
    b_ml: float,
    powder_ml: float,
    density_a_g_ml: float,
    density_b_g_ml: float,
    apparent_density_g_ml: float,
    true_density_g_ml: float,
) -> FilledMix:
    """What measured volumes of A, B and loose powder make: the air between the grains gives way to resin.

    `V = V_A + V_B + V_P rho_apparent / rho_true`; yield = V / (V_A + V_B + V_P)

    Parameters
    ----------
    a_ml : volume of A [ml], >= 0
    b_ml : volume of B [ml], >= 0, A and B not both 0
    powder_ml : loose volume of the powder [ml], >= 0
    density_a_g_ml : density of A [g/ml], > 0
    density_b_g_ml : density of B [g/ml], > 0
    apparent_density_g_ml : density of the loose powder [g/ml], > 0, at most the true density
    true_density_g_ml : density of the grains [g/ml], > 0

    Source: rule of mixtures; equal volumes of the three: common practice, no source.

    >>> mix = filled_mix(1, 1, 1, 1.05, 1.10, 3.0, 8.78)
    >>> [round(x, 2) for x in (mix.yield_pct, mix.loading_wt_pct, mix.loading_vol_pct)]
    [78.06, 58.25, 14.59]
    """
    if not 0 < apparent_density_g_ml <= true_density_g_ml:
        raise InputRefused(
            "powder-density",
            apparent_density_g_ml,
            true_density_g_ml,
            "g/ml",
            "Loose powder cannot be denser than its grains: correct the powder's sheet.",
        )
    if not (a_ml + b_ml > 0 and min(a_ml, b_ml, powder_ml) >= 0 and min(density_a_g_ml, density_b_g_ml) > 0):
        raise InputRefused("mix-not-physical", a_ml + b_ml, "> 0", "ml", "Give the mix resin to bind the powder.")
    liquid_g = a_ml * density_a_g_ml + b_ml * density_b_g_ml
    powder_g = powder_ml * apparent_density_g_ml
    grains_ml = powder_g / true_density_g_ml
    real_ml = a_ml + b_ml + grains_ml
    return FilledMix(
        yield_pct=100.0 * real_ml / (a_ml + b_ml + powder_ml),
        loading_wt_pct=100.0 * powder_g / (powder_g + liquid_g),
        loading_vol_pct=100.0 * grains_ml / real_ml,
        density_g_ml=(powder_g + liquid_g) / real_ml,
    )


def loose_powder_ml(
    liquid_ml: float,
    apparent_density_g_ml: float,
    true_density_g_ml: float,
    most_vol_pct: float,
    loose_share: float = 0.5,
) -> float:
    """Loose powder for an amount of resin: the usual share of it, or less where the resin would grow too thick.

    `V_P = min(s V_L, V_L phi / (1 - phi) rho_true / rho_apparent)`

    Parameters
    ----------
    liquid_ml : A and B together [ml], >= 0
    apparent_density_g_ml : density of the loose powder [g/ml], > 0
    true_density_g_ml : density of the grains [g/ml], > 0
    most_vol_pct : most powder that the resin takes and still pours [true volume %], 0 to below 100
    loose_share : loose powder per volume of resin; 0.5 makes A, B and powder equal volumes

    Source: rule of mixtures; equal volumes: common practice, no source.

    >>> round(loose_powder_ml(2.0, 3.0, 8.78, 30.0), 3)
    1.0
    """
    if not 0 <= most_vol_pct < 100:
        raise InputRefused(
            "powder-limit", most_vol_pct, 100, "vol %", "Correct powder_max_vol_pct on the resin's sheet."
        )
    phi = most_vol_pct / 100.0
    by_viscosity = liquid_ml * phi / (1.0 - phi) * true_density_g_ml / apparent_density_g_ml
    return min(loose_share * liquid_ml, by_viscosity)


def thickened(viscosity_pa_s: float, loading_vol_pct: float, packing: float = ONE_SIZE_PACKING) -> float:
    """Viscosity of the filled mix [Pa s] by Maron and Pierce: `mu (1 - phi / phi_max)^-2`.

    Parameters
    ----------
    viscosity_pa_s : viscosity of the stirred resin [Pa s], > 0
    loading_vol_pct : powder's true volume in the mix [%], 0 to below the packing
    packing : densest packing phi_max of the powder [-], above 0, at most 0.87; left out, that of one size, which makes
        a powder of mixed sizes look thicker than it is

    Source: Maron and Pierce's form holds for grains of any length to width from 0.04 to 22: Mueller, Llewellin & Mader,
    Geophys. Res. Lett. 38 (2011) L13316; sizes act through phi_max.

    >>> round(thickened(1.0, 20.0), 3)
    2.116
    """
    if not 0 < packing <= TWO_SIZES_PACKING:
        raise InputRefused("powder-packing", packing, round(TWO_SIZES_PACKING, 2), "", "Give the share, 0.64 is usual.")
    phi = loading_vol_pct / 100.0
    if not 0 <= phi < packing:
        raise InputRefused("powder-packing", loading_vol_pct, 100 * packing, "vol %", "Take less powder.")
    return float(viscosity_pa_s * (1.0 - phi / packing) ** -2)
