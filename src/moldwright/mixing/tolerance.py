"""By how much the ratio of A and B may be off before the cure suffers."""

from __future__ import annotations

from moldwright.materials.kinds import TwoPart
from moldwright.materials.words import Chemistry

RATIO_TOLERANCE = 0.02
"""Where A and B use each other up: class default, from memory."""
FORGIVING = {
    Chemistry.ADDITION: 0.05,
    Chemistry.CONDENSATION: 0.05,
    Chemistry.POLYESTER: 0.10,
    Chemistry.GYPSUM: 0.05,
}
"""Where one part is in excess, a catalyst or water: class defaults, from memory, low confidence. Addition-cure silicone
is commonly measured in marked cups, which hold no more than this."""


def ratio_tolerance_of(sheet: TwoPart) -> float:
    """The share by which the ratio may be off: the sheet's own figure, else its chemistry's.

    Parameters
    ----------
    sheet : a rubber or a resin

    Source: the sheet; class defaults, from memory.
    """
    if sheet.ratio_tolerance_pct is not None:
        return sheet.ratio_tolerance_pct.likely / 100.0
    return FORGIVING.get(sheet.chemistry, RATIO_TOLERANCE)
