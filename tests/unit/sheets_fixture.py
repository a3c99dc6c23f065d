"""A made-up piece, its mold and its plan for the tests of the sheets: a ball with an arm on a foot."""

from __future__ import annotations

from functools import cache

import manifold3d
import numpy as np
import trimesh

from moldwright.geometry.mesh import Mesh
from moldwright.plan.plan import (
    Assumption,
    BandagePlan,
    CastPlan,
    Caution,
    CoatPlan,
    FillSpot,
    GlovePlan,
    MixPart,
    MixPlan,
    MouthPlan,
    NeedPlan,
    OriginalPlan,
    PartPlan,
    PiecePlan,
    Plan,
    RemovalPlan,
    SeamHeight,
    ShellPlan,
    SkinPlan,
    StepPlan,
)
from moldwright.ranges import Range
from moldwright.sheets.pictures import MoldMeshes, Pictures, draw


def _solid(ball: float, arm: float, foot: float, top: float, fine: int) -> manifold3d.Manifold:
    parts = [
        manifold3d.Manifold.cylinder(90, foot, foot * 0.8, 2 * fine),
        manifold3d.Manifold.sphere(ball, 4 * fine).translate((0, 0, 100)),
        manifold3d.Manifold.cylinder(55, arm, arm, fine).rotate((0, 70, 20)).translate((10, 0, 110)),
        manifold3d.Manifold.sphere(arm * 1.4, 2 * fine).translate((60, 18, 128)),
        manifold3d.Manifold.cylinder(top, arm, 1, fine).translate((0, 0, 130)),
    ]
    return manifold3d.Manifold.batch_boolean(parts, manifold3d.OpType.Add)


def _mesh(solid: manifold3d.Manifold) -> Mesh:
    raw = solid.to_mesh()
    return Mesh(np.asarray(raw.vert_properties[:, :3], np.float64), np.asarray(raw.tri_verts, np.int32))


@cache
def mold_meshes(fine: int = 24) -> MoldMeshes:
    """About 2 k triangles at `fine` 16, 300 k at 250."""
    cube = manifold3d.Manifold.cube((400, 400, 400), True).translate((0, 0, 200))
    original = _solid(40, 9, 30, 30, fine) ^ cube
    flange = manifold3d.Manifold.cube((130, 120, 6), True).translate((0, 0, 3))
    walls = _solid(44, 13, 34, 34, fine) ^ cube
    gloved = walls + flange
    outer = (_solid(50, 19, 40, 40, fine) ^ cube) + manifold3d.Manifold.cube((156, 146, 14), True).translate((0, 0, 7))
    support = outer - gloved
    wave = manifold3d.CrossSection([[(-200, -300), (0, -300), (12, -20), (-12, 20), (0, 300), (-200, 300)]])
    left = manifold3d.Manifold.extrude(wave, 400)
    shell = (support ^ left, support - left)
    spots = ((52.0, 14.0, 105.0), (-20.0, -30.0, 70.0), (25.0, 25.0, 66.0))
    return MoldMeshes(
        _mesh(original), None, _mesh(gloved - original), _mesh(gloved), tuple(_mesh(s) for s in shell),
        ((-1.0, 0.0, 0.0), (1.0, 0.0, 0.0)), spots,
    )  # fmt: skip


@cache
def pictures() -> Pictures:
    return draw(mold_meshes())


def ball(radius_mm: float, subdivisions: int = 4) -> Mesh:
    sphere = trimesh.creation.icosphere(subdivisions=subdivisions, radius=radius_mm)
    return Mesh(np.asarray(sphere.vertices, np.float64), np.asarray(sphere.faces, np.int32))


def _mix(for_: str, cup: int, parts: tuple[tuple[str, float, float], ...], work_by_s: float) -> MixPlan:
    reads, rows = 0.0, []
    for name, mass, density in parts:
        reads = round(reads + mass, 1)
        rows.append(MixPart(name, mass, round(mass / density, 1), reads))
    return MixPlan(for_, cup, tuple(rows), work_by_s, 1.2, 23.0)


def _rubber_cup(for_: str, cup: int, a: float, b: float) -> MixPlan:
    return _mix(
        for_, cup, (("A", a, 1.08), ("pigment", 0.8, 1.2), ("B", b, 1.08), ("thixotropic agent", 1.6, 1.0)), 780
    )


_COATS = (
    CoatPlan("detail", 0.6, 30.1, 32.5, Range(34.0, 37.0, 41.0), 0.3, "yellow", 1, "stipple"),
    CoatPlan("brushed", 1.4, 74.2, 80.1, Range(84.0, 90.5, 99.0), 1.15, "blue", 2, "brush"),
    CoatPlan("stick", 2.0, 112.6, 121.6, Range(128.0, 138.0, 151.0), 2.0, "wine red", 3, "stick"),
)
_MIXES = (
    _rubber_cup("detail", 1, 17.3, 17.3), _rubber_cup("brushed", 1, 21.4, 21.5), _rubber_cup("brushed", 2, 21.4, 21.4),
    _rubber_cup("stick", 1, 21.8, 21.8), _rubber_cup("stick", 2, 21.9, 21.8), _rubber_cup("stick", 3, 21.7, 21.8),
    _mix("skin", 1, (("polyol side", 61.2, 1.05), ("bronze powder", 178.4, 3.0), ("isocyanate side", 64.1, 1.1)), 95),
    _mix("back-fill", 1, (("A", 102.0, 1.05), ("B", 106.9, 1.1), ("tint", 0.6, 1.0)), 240),
)  # fmt: skip
_LATEX = "No latex gloves near this rubber: they stop the cure. Vinyl, or nitrile known to be free of sulfur."
_SKIN = "Gloves and goggles on. The safety data sheet of both parts says what else."
_BLADE = "Cut away from yourself and from the hand that holds; a dull blade slips."


def _step(
    id_: str, title: str, per: str = "mold", mixes: tuple[int, ...] = (), wait: Range | None = None,
    lift: float | None = None, cautions: tuple[str, ...] = (_SKIN,), labor: float = 15.0,
) -> StepPlan:  # fmt: skip
    return StepPlan(
        id_, title, per, labor, wait, ("clean sticks", "timer", "lamp held low"),
        (f"Do what {id_} asks, from the top down and into the hollows first.", "Look from below with the mirror."),
        ("The step before is done and signed.",), cautions, mixes, lift,
    )  # fmt: skip


def _steps() -> tuple[StepPlan, ...]:
    cure = Range(960.0, 1200.0, 1440.0)
    rows = [_step(i, i.replace("-", " ").capitalize()) for i in ("receive", "lay-out", "clean", "mount", "release")]
    rows.append(_step("patch-test", "Patch test", wait=cure))
    for number, (coat, mixes) in enumerate(zip(_COATS, ((0,), (1, 2), (3, 4, 5)), strict=True), start=1):
        rows.append(
            _step(
                f"coat-{coat.name}-mix", f"Mix coat {number} of 3: {coat.name}", mixes=mixes, cautions=(_SKIN, _LATEX)
            )
        )
        rows.append(_step(f"coat-{coat.name}", f"Lay coat {number} of 3: {coat.name}", cautions=(_LATEX,), labor=25))
        rows.append(_step(f"coat-{coat.name}-look", "Look, repair, wait", wait=Range(32.0, 40.0, 55.0), cautions=()))
    rows += [
        _step(i, i.replace("-", " ").capitalize())
        for i in ("fill", "trim-flange", "mark-seam", "clay-wall", "wax-rubber")
    ]
    rows += [
        _step("shell-2", "Lay shell half 2", wait=cure),
        _step("shell-1", "Lay shell half 1"),
        _step("shell-dry", "Let it dry", wait=cure),
    ]
    rows += [_step("open-shell", "Open the shell", lift=6.4, cautions=(_BLADE,)), _step("peel", "Peel the glove")]
    rows += [
        _step(i, i.replace("-", " ").capitalize(), "cast", cautions=())
        for i in ("wash-glove", "reseat", "close-shell", "leak-check")
    ]
    rows += [_step("skin", "Cast the skin", "cast", (6,)), _step("back-fill", "Back-fill", "cast", (7,))]
    rows += [_step(i, i.capitalize(), "cast") for i in ("demold", "flash", "weigh-cast", "burnish", "dark-wax", "pack")]
    return (*rows, _step("store-mold", "Clean and store the mold", "edition"))


def _need(id_: str, name: str, low: float, likely: float, high: float, unit: str, for_: str) -> NeedPlan:
    return NeedPlan(id_, name, Range(low, likely, high), unit, for_)


_NEEDS = (
    _need(
        "addition-cure-a10-slow",
        "Addition-cure silicone, Shore A 10, slow, A and B",
        248.0,
        266.0,
        291.0,
        "g",
        "rubber",
    ),
    _need("pigment-yellow", "Silicone pigment, yellow", 0.3, 0.4, 0.6, "g", "rubber"),
    _need("release", "Release agent, petroleum jelly thinned", 4.0, 6.0, 9.0, "g", "rubber"),
    _need("plaster-bandage", "Plaster bandage, rolls", 3.0, 3.0, 4.0, "each", "shell"),
    _need("clay", "Modeling clay without sulfur", 300.0, 380.0, 460.0, "g", "shell"),
    _need("urethane-fast", "Urethane casting resin, fast, A and B", 2800.0, 3010.0, 3300.0, "g", "casting"),
    _need("bronze", "Bronze powder, atomized", 4100.0, 4281.6, 4500.0, "g", "casting"),
    _need("steel-wool", "Steel wool, finest", 12.0, 12.0, 18.0, "each", "finishing"),
    _need("gloves", "Vinyl gloves, pairs", 60.0, 72.0, 90.0, "each", "protection"),
)


def plan(units: str = "metric") -> Plan:
    """A plan that hangs together: totals run on, coats add up; its numbers are made up for the tests."""
    spots = tuple(
        FillSpot(at, depth, ml, round(ml * 1.08, 1), "brushed")
        for at, depth, ml in zip(mold_meshes().spots, (6.2, 3.1, 4.4), (2.1, 0.6, 1.2), strict=True)
    )
    part = PartPlan(31.0, 33.5, Range(34.0, 36.0, 39.0))
    fill = PartPlan(3.9, 4.2, Range(4.3, 4.6, 5.1))
    glove = GlovePlan(Range(248.0, 251.8, 256.0), _COATS, part, fill, spots)
    pieces = tuple(
        PiecePlan(f"mold/shell-{k}.stl", d, 3.9, 310.0) for k, d in ((1, (-1.0, 0.0, 0.0)), (2, (1.0, 0.0, 0.0)))
    )
    table = tuple(SeamHeight(15.0 * k, None if k in (4, 5) else 20.0 + 3.5 * (k % 12)) for k in range(24))
    texts = ((_LATEX, "stop"), (_SKIN, "heed"), (_BLADE, "heed"))
    return Plan(
        1, "Otter on a stone", "7c4103fa9be215d60c88aa41f3e9b7d25016c3ea", units,
        (Assumption("cast.powder", "bronze", "default"),),
        OriginalPlan(402.0, 310.0, 160.0, True, "scan", (), (), 1.0, 0.1), MouthPlan(2800.0, 52.0, 1, None), glove,
        ShellPlan(pieces, 512.0, table, 6.0, RemovalPlan(True, 0.0, 12, 4000, 0, 310.0)),
        BandagePlan(4, 2, 36, 250.0, 100.0, 3, 620.0, 1860.0, 12.0, 6.0, 380.0),
        CastPlan(402.0, SkinPlan(4.0, 118.0), 284.0, Range(610, 655, 700), 58.2, 14.6, 78.1, Range(0.2, 0.4, 0.6)),
        _MIXES, _NEEDS, _steps(), tuple(Caution("", grave, text, "common practice") for text, grave in texts),
        rubber="addition-cure silicone, Shore A 10, slow", temperature_c=22.0,
    )  # fmt: skip
