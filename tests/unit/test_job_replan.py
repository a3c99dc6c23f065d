"""The real job on a small cone: the same plan twice is the same text; a new temperature computes no geometry again."""

from __future__ import annotations

import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from decimal import Decimal
from functools import lru_cache
from pathlib import Path

import numpy as np
import pytest
from job_meshes import meshes_of

from moldwright.commission.orders import Commission, EditionOrder, OriginalOrder
from moldwright.geometry.mesh import Mesh
from moldwright.job.planning import Planned, make_plan
from moldwright.materials import library
from moldwright.plan.json_text import plan_to_json
from moldwright.scan.scan import Scan
from moldwright.store.memory import MemoryStore, Store

SIDES = 32
ORDER = Commission(OriginalOrder("cone.off", unit="mm", up="+z"), given=("original.file", "original.unit"))


@lru_cache(maxsize=1)
def cone() -> Scan:
    """A cone cut off: radius 25 mm below and 12 mm above, 45 mm tall."""
    turn = np.linspace(0, 2 * np.pi, SIDES, endpoint=False)
    ring = np.c_[np.cos(turn), np.sin(turn), np.zeros(SIDES)]
    vertices = np.r_[ring * 25, ring * 12 + (0, 0, 45), [(0, 0, 0), (0, 0, 45)]]
    faces: list[tuple[int, int, int]] = []
    for i in range(SIDES):
        j = (i + 1) % SIDES
        faces += [
            (i, j, SIDES + j),
            (i, SIDES + j, SIDES + i),
            (2 * SIDES, j, i),
            (2 * SIDES + 1, SIDES + i, SIDES + j),
        ]
    return Scan(Mesh(vertices, np.array(faces, dtype=np.int32)), None, None, 1, "off", (), True)


def planned(order: Commission, store: Store, told: list[str]) -> Planned:
    return make_plan(order, cone(), library(), store, lambda stage, fraction: told.append(stage))


@pytest.mark.slow
def test_a_new_temperature_price_or_edition_computes_no_geometry() -> None:
    store, told = MemoryStore(), list[str]()
    first = planned(ORDER, store, told)
    assert told
    for changed in (
        replace(ORDER, shop=replace(ORDER.shop, temperature_c=25.0)),
        replace(ORDER, prices=(("talc", Decimal("4.50")),)),
        replace(ORDER, edition=EditionOrder(50)),
    ):
        told.clear()
        again = planned(changed, store, told)
        assert told == []
        assert all(meshes_of(again)[name] is mesh for name, mesh in meshes_of(first).items())
        assert again.plan.glove.volume_ml == first.plan.glove.volume_ml
    warmer = planned(replace(ORDER, shop=replace(ORDER.shop, temperature_c=25.0)), store, told)
    assert warmer.plan.mixes[0].work_by_s < first.plan.mixes[0].work_by_s


@pytest.mark.slow
def test_the_same_commission_twice_is_the_same_text() -> None:
    one, two = (planned(ORDER, MemoryStore(), []) for _ in range(2))
    assert plan_to_json(one.plan) == plan_to_json(two.plan)
    for name, mesh in meshes_of(one).items():
        np.testing.assert_array_equal(mesh.vertices, meshes_of(two)[name].vertices)


def command(folder: Path, out: str, temperature: str, count: int) -> set[str]:
    """The stages that the whole command tells for the cone: a process of its own, with a store on the disk."""
    mesh = cone().mesh
    lines = [f"OFF\n{len(mesh.vertices)} {len(mesh.faces)} 0", *(" ".join(map(str, v)) for v in mesh.vertices.tolist())]
    lines += ["3 " + " ".join(map(str, face)) for face in mesh.faces.tolist()]
    (folder / "cone.off").write_text("\n".join(lines), encoding="utf-8")
    order = f'[original]\nfile = "cone.off"\nunit = "mm"\nup = "+z"\n[edition]\ncount = {count}\n'
    (folder / "c.toml").write_text(f'{order}[shop]\ntemperature = "{temperature}"\n', encoding="utf-8")
    call = ["-c", "from moldwright.desk.main import main; main()", "plan", "c.toml", "--out", out, "--cache", "store"]
    done = subprocess.run([sys.executable, *call], cwd=folder, capture_output=True, text=True, check=True)
    return {line.removeprefix("… ") for line in done.stderr.splitlines()}


@pytest.mark.slow
def test_the_whole_command_makes_no_solid_and_no_picture_again(tmp_path: Path) -> None:
    first = command(tmp_path, "one", "22 °C", 12)
    assert {"lay the coats", "writing solids", "drawing pictures"} <= first
    again = command(tmp_path, "two", "25 °C", 40)
    assert again == {"reading the scan", "setting sheets"}
    for path in sorted((tmp_path / "one" / "mold").iterdir()):
        assert path.read_bytes() == (tmp_path / "two" / "mold" / path.name).read_bytes()


@pytest.mark.slow
def test_two_commands_at_once_on_one_store_plan_alike(tmp_path: Path) -> None:
    with ThreadPoolExecutor(2) as pool:
        told = list(pool.map(lambda out: command(tmp_path, out, "22 °C", 12), ("one", "two")))
    assert all("setting sheets" in stages for stages in told)
    names = sorted(path.relative_to(tmp_path / "one") for path in (tmp_path / "one").rglob("*") if path.is_file())
    assert len(names) >= 11
    for name in names:
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes(), name
