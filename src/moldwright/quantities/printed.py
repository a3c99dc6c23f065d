"""What printing a shell takes."""

from __future__ import annotations

from math import pi

from moldwright.materials import Shell
from moldwright.mold.measures import PrintMeasures
from moldwright.plan.printing import PartOnPlate, PlatePlan, PrintPlan, plate_file
from moldwright.quantities.laid_shell import known

FILAMENT_MM = 1.75
"""The usual filament: common practice, no source."""
FILAMENT_MM2 = pi * (FILAMENT_MM / 2.0) ** 2


def print_plan(shell: Shell, printed: PrintMeasures | None) -> PrintPlan | None:
    """Plates, pins and filament; None for a shell that is laid by hand, or whose solid nobody knows.

    `m = V rho`, `length = V / A` of a filament of 1.75 mm, V of solid parts.

    Parameters
    ----------
    shell : its sheet
    printed : measured on the plates

    Raises InputRefused ("sheet-incomplete"). Source: the solids; the sheet's density.
    """
    if printed is None:
        return None
    density = known(shell, "density_g_ml").range
    plates = tuple(
        PlatePlan(plate_file(number), tuple(PartOnPlate(*part) for part in parts))
        for number, parts in enumerate(printed.plates, start=1)
    )
    filament_g = density * printed.volume_ml
    return PrintPlan(plates, printed.pins, filament_g, filament_g * (1.0 / (density.likely * FILAMENT_MM2)))
