"""How far the sheet of rubber is strained, as a file of a plan's folder: the screen shows what the plan told."""

from __future__ import annotations

from io import StringIO
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

STRAIN = "mold/strain.csv"
HEAD = "x_mm,y_mm,z_mm,stretch"
Field = tuple[tuple[float, float, float, float], ...]


def write_strain(field: Field, folder: Path) -> None:
    """Write places of the sheet and its stretch there, a line each.

    Parameters
    ----------
    field : places [mm] and stretch.
    folder : the plan's; its solids are there.
    """
    lines = "".join(f"{x:.3f},{y:.3f},{z:.3f},{stretch:.5f}\n" for x, y, z, stretch in field)
    (folder / STRAIN).write_text(f"{HEAD}\n{lines}", encoding="ascii")


def read_strain(folder: Path) -> NDArray[np.float64] | None:
    """(n, 4) places [mm] and stretch there; None where nobody computed it, or the plan is older than the file.

    Parameters
    ----------
    folder : the plan's.
    """
    try:
        text = (folder / STRAIN).read_text(encoding="ascii")
    except FileNotFoundError:
        return None
    return np.loadtxt(StringIO(text), delimiter=",", skiprows=1, ndmin=2)
