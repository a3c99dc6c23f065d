"""A mold of spheres among a desk's plans: every length, area and way of it is known by heart.

The original is a sphere of 40 mm, 40 mm over the board; the coat one of 42 mm about it; the rubber one of 44 mm whose
middle is 1 mm higher; the shell, of 50 mm, is cut in halves through the middle: one draws off to the right, the other
to the left and 20 degrees upward.
"""

from __future__ import annotations

import gzip
import math
from contextlib import closing
from dataclasses import dataclass, replace
from hashlib import sha256
from typing import Any

import numpy as np
import trimesh
from manifold3d import Manifold
from PIL import Image
from tests.browser.desk_process import DeskProcess
from tests.browser.shop_scene import COMMISSION, bench_plan

from moldwright.geometry.mesh import Mesh
from moldwright.log.ids import PieceId, PlanId
from moldwright.making.files.plan import APART, CUT
from moldwright.making.plan_folders import plan_home
from moldwright.making.screen.kept import ScreenBytes, made_screen_file
from moldwright.making.screen.packed_parts import ScreenMold, ScreenPart, drawable, packed_mold
from moldwright.plan.plan import Plan
from moldwright.plan.thickness import LengthAt, ThicknessPlan
from moldwright.records.clock import BenchClock, now_ms
from moldwright.records.pieces.write import piece_known, planned, take_in
from moldwright.records.shop import open_shop
from moldwright.sheets.model_files import write_stl
from moldwright.sheets.plan_text import plan_text
from moldwright.store.memory import NoStore
from moldwright.web.long_work.files import JobFiles
from moldwright.web.long_work.job import JobId, LongJob, WorkKind, WorkState

ORIGINAL_MM, COAT_MM, RUBBER_MM, SHELL_MM = 40.0, 42.0, 44.0, 50.0
MIDDLE, HIGHER = (0.0, 0.0, 40.0), (0.0, 0.0, 41.0)
RISE = math.radians(20.0)
DRAWS = ((1.0, 0.0, 0.0), (-math.cos(RISE), 0.0, math.sin(RISE)))
THICKNESS = ThicknessPlan(3.0, 0.0, LengthAt(3.0, (0.0, 0.0, -3.0)), LengthAt(5.0, (0.0, 0.0, 85.0)), None)
"""As it is: least at the foot, most at the top."""
AROUND = 96
"""Corners around a sphere: its section is 0.1 % less than a circle's."""


@dataclass(frozen=True, slots=True)
class MoldScene:
    """What was written."""

    piece: PieceId
    plan: PlanId
    mold: ScreenMold


class _Ready(NoStore):
    """A store that has the solids already, whatever they are of."""

    def __init__(self, packed: bytes) -> None:
        self._packed = packed

    def get(self, key: str, kind: type[Any]) -> Any:
        return ScreenBytes(self._packed)


def mold_scene(desk: DeskProcess, around: int = AROUND, temperature_c: float = 22.0) -> MoldScene:
    """A piece with that mold in the desk's records and folders.

    Parameters
    ----------
    around : corners around each sphere.
    """
    mold, plan = spheres(around), _plan(temperature_c)
    text = plan_text(plan)
    id_ = PlanId(sha256(text.encode()).hexdigest())
    folder = plan_home(desk.home / "desk", id_)
    (folder / "mold").mkdir(parents=True)
    (folder / "plan.json").write_text(text, encoding="utf-8")
    write_stl(mesh_of(ball(ORIGINAL_MM, MIDDLE, 12)), folder / "mold/original.stl")
    (folder / "sheets").mkdir()
    (folder / "sheets/bench-a4.pdf").write_bytes(b"%PDF-1.7")
    for name in (APART, CUT):
        (folder / name).parent.mkdir(exist_ok=True)
        Image.new("RGB", (64, 48), "gray").save(folder / name)
    made_screen_file(folder, _Ready(gzip.compress(packed_mold(mold), 6)))
    with closing(open_shop(str(desk.home / "shop.db"))) as shop:
        clock = BenchClock("test")
        piece = take_in(shop, clock, COMMISSION, {}, "Ball on a board")
        planned(shop, clock, piece, text, "0")
    return MoldScene(piece, id_, mold)


def trial_in(desk: DeskProcess, own: MoldScene, tried: MoldScene) -> None:
    """Another plan, tried on a piece and made: what its process leaves. The desk is not started yet."""
    with closing(open_shop(str(desk.home / "shop.db"))) as shop:
        asked = piece_known(shop, own.piece).asked
    order = {"asked": asked, "commission": f'{COMMISSION}[shop]\ntemperature = "25 °C"\n'}
    files = JobFiles(desk.home / "desk" / "work")
    job = LongJob(JobId(BenchClock("work").new_id()), WorkKind.TRIAL, "Ball", own.piece, order, now_ms())
    files.write(replace(job, state=WorkState.DONE, ended_ms=now_ms(), result={"plan": tried.plan, "rough": False}))


def spheres(around: int) -> ScreenMold:
    """The solids with what they measure."""
    rubber = ball(RUBBER_MM, HIGHER, around)
    wall = ball(SHELL_MM, HIGHER, around) - rubber
    halves = wall.split_by_plane((1.0, 0.0, 0.0), 0.0)
    parts = (
        drawable("original", "original", mesh_of(ball(ORIGINAL_MM, MIDDLE, around))),
        measured(drawable("coat-1", "coat", mesh_of(ball(COAT_MM, MIDDLE, around)))),
        measured(drawable("rubber", "rubber", mesh_of(rubber))),
        *(drawable(f"shell-{n}", "shell", mesh_of(half), DRAWS[n - 1]) for n, half in enumerate(halves, 1)),
    )
    return ScreenMold(parts, 0.0)


def ball(radius_mm: float, middle: tuple[float, float, float], around: int) -> Manifold:
    """A sphere."""
    return Manifold.sphere(radius_mm, around).translate(middle)


def mesh_of(solid: Manifold) -> Mesh:
    """Its triangles."""
    made = solid.to_mesh()
    return Mesh(np.asarray(made.vert_properties[:, :3], np.float64), np.asarray(made.tri_verts, np.int32))


def measured(part: ScreenPart) -> ScreenPart:
    """Lengths at each corner, told by where it is."""
    away = np.linalg.norm(part.vertices - np.array(MIDDLE), axis=1)
    low = np.maximum(0.0, 30.0 - part.vertices[:, 2])
    if part.kind == "coat":
        return replace(part, quantities={"undercut": low})
    values = {"thickness": away - ORIGINAL_MM, "packed": away - COAT_MM, "seam": np.abs(part.vertices[:, 0])}
    return replace(part, quantities=values)


def section_mm2(vertices: np.ndarray, faces: np.ndarray, behind_mm: float) -> float:
    """By trimesh, which hands areas to shapely."""
    body = trimesh.Trimesh(vertices, faces)
    body.merge_vertices(merge_norm=True)
    section = body.section((0.0, 1.0, 0.0), (0.0, behind_mm, 0.0))
    assert section is not None
    return float(section.to_2D()[0].area)


def _plan(temperature_c: float) -> Plan:
    plan = bench_plan(4)
    first, *_ = plan.shell.pieces
    pieces = tuple(replace(first, draw=draw, file=f"mold/shell-{n}.stl") for n, draw in enumerate(DRAWS, 1))
    glove = replace(plan.glove, thickness=THICKNESS)
    return replace(plan, needs=(), temperature_c=temperature_c, glove=glove, shell=replace(plan.shell, pieces=pieces))
