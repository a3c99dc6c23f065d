"""Densities of mixtures by additive volumes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import inf
from typing import Any

from moldwright.errors import InputRefused
from moldwright.materials.kinds import TwoPart
from moldwright.ranges import Range


def mixture_density_g_ml(shares_weight: Sequence[float], densities_g_ml: Sequence[float]) -> float:
    """Density of parts whose volumes add up.

    rho = sum(m_i) / sum(m_i / rho_i)

    Parameters
    ----------
    shares_weight : shares by weight, any common scale, none below zero [-].
    densities_g_ml : density of each part, above zero [g/ml].

    Valid where mixing changes no volume; alloys may be denser (brass 70/30: 8.53 in handbooks, 8.32 by this).

    >>> round(mixture_density_g_ml([90, 10], [8.96, 7.29]), 2)
    8.76

    Source: rule of mixtures.
    """
    sound = len(shares_weight) == len(densities_g_ml) and all(0 <= s < inf for s in shares_weight)
    if not (sound and sum(shares_weight) > 0 and all(0 < d < inf for d in densities_g_ml)):
        remedy = "Give a share and a density above 0 for each part."
        raise InputRefused("mixture-unclear", str(list(shares_weight)), "shares and densities above 0", "", remedy)
    volume = sum(share / density for share, density in zip(shares_weight, densities_g_ml, strict=True))
    return sum(shares_weight) / volume


def weight_from_volume(
    ratio_volume: tuple[float, float], density_a_g_ml: float, density_b_g_ml: float
) -> tuple[float, float]:
    """The ratio by weight, A = 100, of a ratio by volume.

    b = 100 (v_B rho_B) / (v_A rho_A)

    Parameters
    ----------
    ratio_volume : parts by volume A, B; A above zero [-].
    density_a_g_ml : density of A [g/ml].
    density_b_g_ml : density of B [g/ml].

    >>> round(weight_from_volume((1, 1), 1.05, 1.10)[1], 2)
    104.76

    Source: definition of density.
    """
    return 100.0, 100.0 * ratio_volume[1] * density_b_g_ml / (ratio_volume[0] * density_a_g_ml)


def volume_from_weight(
    ratio_weight: tuple[float, float], density_a_g_ml: float, density_b_g_ml: float
) -> tuple[float, float]:
    """The ratio by volume, A = 100, of a ratio by weight.

    b = 100 (m_B / rho_B) / (m_A / rho_A)

    Parameters
    ----------
    ratio_weight : parts by weight A, B; A above zero [-].
    density_a_g_ml : density of A [g/ml].
    density_b_g_ml : density of B [g/ml].

    >>> round(volume_from_weight((100, 10), 1.17, 1.0)[1], 2)
    11.7

    Source: definition of density.
    """
    return 100.0, 100.0 * ratio_weight[1] * density_a_g_ml / (ratio_weight[0] * density_b_g_ml)


def mixed_density_g_ml(sheet: TwoPart) -> Range:
    """Density of the stirred mix of a sheet's two parts, by additive volumes at its ratio by weight.

    Parameters
    ----------
    sheet : a rubber or a resin.

    >>> from moldwright.materials import library
    >>> round(mixed_density_g_ml(library().resin("urethane-fast")).likely, 3)
    1.075

    Source: rule of mixtures; cure shrinkage is not in it.
    """
    a, b = sheet.density_a_g_ml, sheet.density_b_g_ml
    if b is None:
        return a.range
    low, likely, high = (
        mixture_density_g_ml(sheet.ratio_weight, pair)
        for pair in ((a.low, b.low), (a.likely, b.likely), (a.high, b.high))
    )
    return Range(low, likely, high)


def bandage_mm(fields: Mapping[str, Any]) -> Range:
    """How thick layers of folded bandage lie [mm]: layers times plies times a ply.

    Parameters
    ----------
    fields : a sheet's figures by key: `layers`, `plies`, `ply_thickness_mm`

    Source: definition.
    """
    layers, plies, ply = (fields[key] for key in ("layers", "plies", "ply_thickness_mm"))
    return Range(
        layers.low * plies.low * ply.low, layers.likely * plies.likely * ply.likely, layers.high * plies.high * ply.high
    )
