"""Two parts of a mix: their ratio by weight and by volume, and what the mixture weighs."""

from __future__ import annotations

from moldwright.errors import InputRefused

Pair = tuple[float, float]


def weight_ratio(ratio_volume: Pair, density_a_g_ml: float, density_b_g_ml: float) -> Pair:
    """Parts by weight for parts by volume, scaled so that A is 100.

    `w_B / w_A = (v_B rho_B) / (v_A rho_A)`

    Parameters
    ----------
    ratio_volume : parts of A and of B by volume, > 0
    density_a_g_ml : density of A [g/ml], > 0
    density_b_g_ml : density of B [g/ml], > 0

    Returns 100 and the parts of B. Source: mass = volume x density.

    >>> [round(x, 2) for x in weight_ratio((1, 1), 1.05, 1.10)]
    [100.0, 104.76]
    """
    _positive(*ratio_volume, density_a_g_ml, density_b_g_ml)
    return 100.0, 100.0 * ratio_volume[1] * density_b_g_ml / (ratio_volume[0] * density_a_g_ml)


def mixed_density_g_ml(parts: tuple[Pair, ...]) -> float:
    """Density of a mix whose parts keep their volumes.

    `rho = sum(w) / sum(w / rho_i)`

    Parameters
    ----------
    parts : (weight [any unit], density [g/ml]) of each part; weights >= 0 with a positive sum, densities > 0

    Source: rule of mixtures.

    >>> round(mixed_density_g_ml(((100, 1.05), (104.762, 1.10))), 4)
    1.075
    """
    _positive(sum(weight for weight, _ in parts), *(density for _, density in parts))
    return sum(weight for weight, _ in parts) / sum(weight / density for weight, density in parts)


def _positive(*values: float) -> None:
    for value in values:
        if not value > 0:
            raise InputRefused(
                "mix-not-physical", value, "> 0", remedy="Check the ratio and the densities on the material's sheet."
            )
