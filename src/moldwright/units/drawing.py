"""The unit that a drawing's axis is marked in."""

from __future__ import annotations

from moldwright.units.constants import INCH_MM
from moldwright.units.printing import LADDERS
from moldwright.units.system import UnitSystem


def drawing_unit(largest: float, dimension: str, system: str = "metric") -> tuple[str, float]:
    """The unit in which a drawing's axis is marked, and its size in house units: one for all of its figures.

    Parameters
    ----------
    largest : of what is drawn, in house units.
    dimension : "mass", "volume" or "length".
    system : "metric" or "us".

    >>> drawing_unit(4800.0, "mass"), drawing_unit(600.0, "mass")
    (('kg', 1000.0), ('g', 1.0))
    """
    if dimension == "length":
        return ("in", INCH_MM) if system == UnitSystem.US else ("mm", 1.0)
    unit = LADDERS[dimension, UnitSystem(system)].unit_of(largest)
    return unit.name, unit.factor
