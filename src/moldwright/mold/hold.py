"""How thick a wet coat a surface holds before it slides or drips, by its slope."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.units.constants import GRAVITY_M_S2

Values = NDArray[np.float64]


def wall_hold_mm(yield_pa: float, density_g_ml: float) -> float:
    """The thickest layer that an upright wall holds [mm]: `h = tau / (rho g)`.

    Parameters
    ----------
    yield_pa : yield stress of the wet mix [Pa], >= 0.
    density_g_ml : its density [g/ml], > 0.

    Source: a Bingham layer slides where the stress at its foot passes the yield stress (Mezger, "The rheology
    handbook"; from memory).

    >>> round(wall_hold_mm(50.0, 1.1), 3)
    4.635
    """
    return yield_pa / (density_g_ml * GRAVITY_M_S2)


def hold_mm(up: Values, wall_mm: float, ceiling_mm: float) -> Values:
    """The thickest wet layer that each place holds [mm]: `min(wall / sin, ceiling / -cos)`; infinite where it is level.

    On a slope it slides where it passes `wall / sin(slope)`; where a face looks down it also drips, past
    `ceiling / -cos(slope)`.

    Parameters
    ----------
    up : (n,) cosine of the angle between the outward normal and up: 1 on a table, 0 on a wall, -1 on a ceiling.
    wall_mm : what an upright wall holds [mm].
    ceiling_mm : what hangs from a ceiling [mm].

    Source: as `wall_hold_mm`; the second limit is our own, by an inverted plate.

    >>> [round(float(h), 3) for h in hold_mm(np.array([0.0, 0.5 ** 0.5, -1.0]), 4.635, 2.0)]
    [4.635, 6.555, 2.0]
    """
    flat = np.clip(up, -1.0, 1.0)
    with np.errstate(divide="ignore"):
        slides = wall_mm / np.sqrt(1.0 - flat**2)
        drips = np.where(flat < 0.0, ceiling_mm / np.maximum(-flat, 1e-12), np.inf)
    return np.asarray(np.minimum(slides, drips), dtype=np.float64)


def slumping_share(slopes: tuple[float, ...], layer_mm: float, wall_mm: float, ceiling_mm: float) -> float:
    """Share of a surface that holds less than a layer, wet: there it slides or drips.

    Parameters
    ----------
    slopes : shares by the cosine with up, see `mold.slopes`; none: 0.
    layer_mm : how thick it is laid at once [mm].
    wall_mm, ceiling_mm : what an upright wall holds, and what hangs from a ceiling [mm].

    Source: as `hold_mm`.

    >>> upright = (0.0,) * 40 + (1.0,) + (0.0,) * 39
    >>> slumping_share(upright, 2.0, 1.9, 5.0), slumping_share(upright, 1.8, 1.9, 5.0)
    (1.0, 0.0)
    """
    middles = (np.arange(len(slopes)) + 0.5) * (2.0 / max(len(slopes), 1)) - 1.0
    slumps = hold_mm(np.asarray(middles, dtype=np.float64), wall_mm, ceiling_mm) < layer_mm
    return float(np.array(slopes)[slumps].sum()) if slopes else 0.0
