"""Pieces of which no glove mold can be made are refused by the command, with the place; what only looks so is planned.

Bodies of closed form; that the shells come off is looked at once more by a general library of solids.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import geometry_bodies as bodies
import impossible_bodies as impossible
import manifold3d as m3
import numpy as np
import pytest
from PIL import Image

from moldwright.commission.orders import Commission, OriginalOrder
from moldwright.desk import main
from moldwright.job.planning import make_plan
from moldwright.materials import library
from moldwright.progress import silent
from moldwright.sheets.model_files import stl_bytes
from moldwright.store.memory import MemoryStore

SOURCE = ("Closed forms: the volume of a ball, Euler's formula for bars and their holes", "manifold3d (common volumes)")

OFFSETS_MM = (0.0, 1.0, 3.0, 10.0, 30.0, 90.0)


def refused(solid: m3.Manifold, folder: Path, capsys: pytest.CaptureFixture[str]) -> dict[str, Any]:
    """What the command says of it, as JSON."""
    (folder / "piece.stl").write_bytes(stl_bytes(impossible.mesh(solid)))
    (folder / "c.toml").write_text('[original]\nfile = "piece.stl"\nunit = "mm"\nup = "+z"\n')
    with pytest.raises(SystemExit) as ended:
        main.plan(commission=folder / "c.toml", out=folder / "out", as_json=True, no_cache=True)
    assert ended.value.code == 4
    assert not (folder / "out").exists()
    told: dict[str, Any] = json.loads(capsys.readouterr().err)["error"]
    with Image.open(told["picture"]) as picture:
        assert min(picture.size) > 300
    assert Path(told["picture"]) == folder / "out-refused.png"
    return told


def test_a_closed_hollow(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """4/3 pi 20^3 mm3 = 33.5 ml, 42 mm over the board."""
    told = refused(impossible.hollow_ball(), tmp_path, capsys)
    assert (told["family"], told["code"], told["unit"]) == ("NoSafePlan", "closed-hollow", "ml")
    assert told["actual"] == pytest.approx(4 / 3 * np.pi * 20**3 / 1000, rel=0.02)
    assert told["place"]["at"] == pytest.approx([0.0, 0.0, 42.0], abs=0.5)


@pytest.mark.slow
def test_a_bottles_inside(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """56 mm wide behind a neck of 14 mm: sections as 16 to 1."""
    told = refused(impossible.bottle(7.0), tmp_path, capsys)
    assert (told["code"], told["unit"]) == ("rubber-trapped", "times its length")
    assert told["actual"] == pytest.approx(16.0, rel=0.15)
    assert told["place"]["across_mm"] == pytest.approx(56.0, abs=1.5)
    assert 0.0 < told["place"]["height_mm"] < 78.0


@pytest.mark.slow
def test_a_bulb_behind_a_bent_neck(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    told = refused(impossible.swallowing(), tmp_path, capsys)
    assert told["code"] == "rubber-trapped"
    assert told["place"]["height_mm"] == pytest.approx(45.0, abs=15.0)


@pytest.mark.slow
def test_a_sponge_of_a_hundred_handles(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Three cells each way, open on all sides but under the slab: counted by the library that made it, over 40."""
    sponge = impossible.sponge(3)
    assert sponge.genus() > 60
    told = refused(sponge, tmp_path, capsys)
    assert (told["code"], told["actual"]) == ("too-many-through-holes", sponge.genus())
    assert told["place"]["side"] == ""
    assert told["place"]["height_mm"] == pytest.approx(24.0, abs=8.0)


def ring(up_mm: float, x_mm: float, upright: bool) -> m3.Manifold:
    lying = bodies.torus(26, 6)
    return (lying.rotate((90, 0, 0)) if upright else lying).translate((x_mm, 0, up_mm))


def hook() -> m3.Manifold:
    turn = [(20 - 20 * np.cos(a), 0.0, 60 + 20 * np.sin(a)) for a in np.linspace(0, np.pi, 9)]
    path: list[impossible.Point] = [(0.0, 0.0, 0.0), *((float(x), y, float(z)) for x, y, z in turn), (40.0, 0.0, 42.0)]
    return impossible.tube(path, 7.0).trim_by_plane((0, 0, 1), 0.0) + bodies.cone(26, 26, 10)


PLANNED = {
    "interlocked rings": lambda: (
        ring(40, -13, True) + ring(40, 13, False) + bodies.box(90, 50, 12) + bodies.cone(6, 6, 40).translate((39, 0, 0))
    ),
    "a hook": hook,
    "a thin fin": lambda: bodies.cone(30, 30, 14) + bodies.box(50, 0.8, 80).translate((0, 0, 10)),
    "a table on its head": lambda: (
        bodies.box(70, 50, 20)
        + sum((bodies.cone(6, 5, 45).translate((x, y, 10)) for x in (-26, 26) for y in (-17, 17)), m3.Manifold())
    ),
}


@pytest.mark.slow
@pytest.mark.parametrize("name", PLANNED)
def test_what_only_looks_impossible_is_planned_and_comes_off(name: str) -> None:
    """No piece shares more than a crumb with the gloved body or another piece, anywhere on its way."""
    scan = bodies.scan(impossible.mesh(PLANNED[name]()))
    made = make_plan(Commission(OriginalOrder(name, unit="mm", up="+z")), scan, library(), MemoryStore(), silent)
    shell = made.solids.shell.value
    gloved = bodies.solid(shell.gloved)
    pieces = [bodies.solid(piece.mesh) for piece in shell.pieces]
    assert made.plan.shell.removal.checked
    for number, piece in enumerate(pieces):
        others = [gloved, *(other for n, other in enumerate(pieces) if n != number)]
        for off_mm in OFFSETS_MM:
            moved = piece.translate(tuple(off_mm * np.array(shell.pieces[number].draw)))
            assert max((moved ^ other).volume() for other in others) < 1e-3
