"""Two small rings of small photos of a body whose volume and area are known in closed form.

A frustum under a half ball: V = pi h (R2 + R r + r2) / 3 + 2 pi r3 / 3; its skin pi (R + r) s + 2 pi r2, s the slant.
"""

from __future__ import annotations

from math import hypot, pi
from pathlib import Path

import numpy as np
import pytest
import trimesh
from tests.photo_sets.materials import Material
from tests.photo_sets.shoot import Shoot, shoot

from moldwright.photos.photograph import photograph
from moldwright.photos.photographed import Photographed, PhotosAsked
from moldwright.photos.reading.read import read_photos
from moldwright.photos.sheet.sizes import SheetSize

SOURCE = ("Volume and skin of a frustum under a half ball, photographed by rendering (VTK, Embree); closed form",)
FOOT_MM, TOP_MM, RISE_MM = 36.0, 22.0, 70.0
HOW = Shoot(
    seed=8,
    material=Material.TERRACOTTA,
    width_px=800,
    height_px=600,
    rings=((20.0, 24), (50.0, 24)),
    masks=False,
    detail=40,
)


def cone() -> trimesh.Trimesh:
    """The body, turned."""
    around = np.linspace(0, pi / 2, 16)
    cap = np.column_stack([TOP_MM * np.cos(around), RISE_MM + TOP_MM * np.sin(around)])
    side = [[0.0, 0.0], [FOOT_MM, 0.0], *cap[:-1], [0.0, RISE_MM + TOP_MM]]
    return trimesh.creation.revolve(np.array(side), sections=120)


@pytest.fixture(scope="module")
def found(tmp_path_factory: pytest.TempPathFactory) -> Photographed:
    folder: Path = tmp_path_factory.mktemp("cone")
    shoot(cone(), SheetSize.A5, folder, HOW)
    with read_photos(folder) as photos:
        return photograph(photos, PhotosAsked())


def test_every_photo_is_used(found: Photographed) -> None:
    assert [one.used for one in found.told] == [True] * 48


def test_its_volume_is_within_4_percent_and_in_its_range(found: Photographed) -> None:
    true = (pi * RISE_MM * (FOOT_MM**2 + FOOT_MM * TOP_MM + TOP_MM**2) / 3 + 2 * pi * TOP_MM**3 / 3) / 1000
    assert found.mesh.volume_ml == pytest.approx(true, rel=0.04)
    volume = found.mesh.volume_ml * found.spread.volume
    assert volume.low <= true <= volume.high


def test_its_area_is_in_its_range(found: Photographed) -> None:
    skin = pi * (FOOT_MM + TOP_MM) * hypot(RISE_MM, FOOT_MM - TOP_MM) + 2 * pi * TOP_MM**2
    mesh = trimesh.Trimesh(found.mesh.vertices, found.mesh.faces)
    area = mesh.area * found.spread.area
    assert area.low <= skin + pi * FOOT_MM**2 <= area.high


def test_it_stands_closed_on_the_board_and_is_as_tall(found: Photographed) -> None:
    mesh = trimesh.Trimesh(found.mesh.vertices, found.mesh.faces)
    assert mesh.is_volume
    assert mesh.bounds[0, 2] == pytest.approx(0.0, abs=1e-6)
    assert mesh.bounds[1, 2] == pytest.approx(RISE_MM + TOP_MM, rel=0.02)
