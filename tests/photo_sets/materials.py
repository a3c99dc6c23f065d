"""What the piece is made of, and how its surface varies: reflectances in linear light."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np
import numpy.typing as npt
from scipy.ndimage import map_coordinates

Floats = npt.NDArray[np.float64]


class Material(StrEnum):
    """What a sculptor's original is made of, by looks."""

    PLASTER = "plaster"
    GRAY = "gray"
    BROWN_CLAY = "brown-clay"
    TERRACOTTA = "terracotta"
    BRONZE = "bronze"
    SPECKLED = "speckled"
    GREENISH = "greenish"


@dataclass(frozen=True, slots=True)
class Looks:
    """`rgb` : diffuse reflectance; `shine`, `power` : strength and narrowness of the highlight; `blotch`, `speckle` :
    how much the reflectance wavers over 0.15 of the height and over `grain` of it."""

    rgb: tuple[float, float, float]
    shine: float = 0.02
    power: float = 20.0
    blotch: float = 0.06
    speckle: float = 0.04
    grain: float = 0.012


LOOKS = {
    Material.PLASTER: Looks((0.74, 0.72, 0.68), shine=0.01),
    Material.GRAY: Looks((0.24, 0.24, 0.25)),
    Material.BROWN_CLAY: Looks((0.22, 0.13, 0.08), blotch=0.12),
    Material.TERRACOTTA: Looks((0.42, 0.17, 0.09), blotch=0.10),
    Material.BRONZE: Looks((0.060, 0.040, 0.026), shine=0.10, power=40.0, blotch=0.3, speckle=0.1),
    Material.SPECKLED: Looks((0.46, 0.42, 0.38), blotch=0.1, speckle=0.5, grain=0.014),
    Material.GREENISH: Looks((0.16, 0.19, 0.13), shine=0.04, blotch=0.2),
}


def reflectance(looks: Looks, points: Floats, height: float, seed: int) -> Floats:
    """Diffuse reflectance at points, (n, 3)."""
    broad = wavering(points / (0.15 * height), seed)
    fine = wavering(points / (looks.grain * height), seed + 1)
    level = np.clip(1 + looks.blotch * broad + looks.speckle * fine, 0.15, 1.8)
    warm = 1 + 0.25 * looks.blotch * wavering(points / (0.2 * height), seed + 2)
    return np.clip(np.array(looks.rgb) * level[:, None] * np.column_stack([warm, np.ones_like(warm), 1 / warm]), 0, 0.9)


def wavering(points: Floats, seed: int) -> Floats:
    """Smooth noise in -1..1 on the unit lattice."""
    table = np.random.default_rng(seed).uniform(-1, 1, (24, 24, 24))
    floor = np.floor(points)
    part = points - floor
    value: Floats = map_coordinates(table, (floor + part * part * (3 - 2 * part)).T, order=1, mode="grid-wrap")
    return value
