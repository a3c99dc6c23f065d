"""A made-up piece, its mold and its plan for the tests of the sheets: a ball with an arm on a foot."""

from __future__ import annotations

import io
from functools import cache

import manifold3d
import numpy as np
import trimesh
from geometry_bodies import mesh
from numpy.typing import NDArray
from PIL import Image

from moldwright.commission.orders import UnitSystem
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.seam_kind import Seam
from moldwright.materials.words import Making
from moldwright.plan.assumptions import Assumption
from moldwright.plan.cast import CastPlan, SkinPlan
from moldwright.plan.cautions import Caution, Severity, caution
from moldwright.plan.closure import ClosurePlan
from moldwright.plan.coats import CoatPlan, Gesture, PigmentColor
from moldwright.plan.flange import FlangePlan, Frame, KeyCut
from moldwright.plan.ids import CoatId, MixId, StepId, coat_id, spot_id
from moldwright.plan.lines import Line, own_line
from moldwright.plan.mixes import (
    BACK_FILL,
    SKIN,
    TRACES,
    CupTask,
    MeasuredBy,
    MixFor,
    MixKind,
    MixPart,
    MixPlan,
    PartKind,
    TaskKind,
    mix_id,
)
from moldwright.plan.mold import (
    BandagePlan,
    GlovePlan,
    PartingPlan,
    PartPlan,
    PiecePlan,
    RemovalPlan,
    ShellPlan,
    SmallSpots,
    SpotPlan,
    StripsOfPiece,
)
from moldwright.plan.needs import NeedGroup, NeedPlan, NeedUnit
from moldwright.plan.original import Hole, HoleTreat, MouthPlan, OriginalPlan
from moldwright.plan.peel import PeelPlan, PeelShape, PeelWay, TightPlace
from moldwright.plan.plan import SCHEMA_VERSION, Plan
from moldwright.plan.seam import SeamCrossing, SeamLine, SeamPlan, SeamStation, ViewSide
from moldwright.plan.steps import Per, Phase, StepPlan
from moldwright.ranges import Range
from moldwright.sheets.pictures import MoldMeshes, Pictures, draw
from moldwright.steps.schedule import Hours
from moldwright.steps.totals import totals_of


def _solid(ball: float, arm: float, foot: float, top: float, fine: int) -> manifold3d.Manifold:
    parts = [
        manifold3d.Manifold.cylinder(90, foot, foot * 0.8, 2 * fine),
        manifold3d.Manifold.sphere(ball, 4 * fine).translate((0, 0, 100)),
        manifold3d.Manifold.cylinder(55, arm, arm, fine).rotate((0, 70, 20)).translate((10, 0, 110)),
        manifold3d.Manifold.sphere(arm * 1.4, 2 * fine).translate((60, 18, 128)),
        manifold3d.Manifold.cylinder(top, arm, 1, fine).translate((0, 0, 130)),
    ]
    return manifold3d.Manifold.batch_boolean(parts, manifold3d.OpType.Add)


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
        mesh(original), None, mesh(gloved - original), mesh(gloved), tuple(mesh(s) for s in shell),
        ((-1.0, 0.0, 0.0), (1.0, 0.0, 0.0)), spots, tuple((hole.letter, hole.at) for hole in HOLES),
    )  # fmt: skip


@cache
def pictures() -> Pictures:
    return draw(mold_meshes())


def pixels(png: bytes) -> NDArray[np.int64]:
    """The colors of a picture."""
    return np.asarray(Image.open(io.BytesIO(png)).convert("RGB"), dtype=np.int64)


def ball(radius_mm: float, subdivisions: int = 4) -> Mesh:
    sphere = trimesh.creation.icosphere(subdivisions=subdivisions, radius=radius_mm)
    return Mesh(np.asarray(sphere.vertices, np.float64), np.asarray(sphere.faces, np.int32))


HOLES = (
    Hole(1, (8.0, 0.0, 84.0), 12.4, HoleTreat.DIVIDER, (20.0, 12.4)),
    Hole(2, (-24.0, -30.0, 21.0), 3.2, HoleTreat.STOP, (4.0, 3.2)),
)
Part = tuple[PartKind, str, float, float]


def _ratio(parts: tuple[Part, ...]) -> float | None:
    """B for one of A, or the other way round."""
    pair = [mass for kind, _, mass, _ in parts if kind in (PartKind.A, PartKind.B)]
    return pair[1] / pair[0] if len(pair) > 1 else None


def _mix(for_: MixFor, cup: int, parts: tuple[Part, ...], work_by_s: float) -> MixPlan:
    reads, risen_ml, rows = 0.0, 0.0, []
    for kind, name, mass, density in parts:
        reads = round(reads + mass, 1)
        by = MeasuredBy.STICK if kind in TRACES else MeasuredBy.SCALE
        risen_ml += mass / density
        rows.append(MixPart(kind, name, mass, round(mass / density, 1), reads, by, round(risen_ml, 1)))
    hand = TaskKind.POUR if for_ in (SKIN, BACK_FILL) else TaskKind.LAY
    tasks = (CupTask(TaskKind.MIX, work_by_s / 3), CupTask(hand, work_by_s / 2))
    return MixPlan(mix_id(for_, cup), for_, cup, tuple(rows), tasks, work_by_s, 1.2, 23.0, ratio=_ratio(parts))


def _rubber_cup(coat: int, cup: int, a: float, b: float) -> MixPlan:
    parts = (
        (PartKind.A, "A", a, 1.08), (PartKind.PIGMENT, "blue", 0.8, 1.2), (PartKind.B, "B", b, 1.08),
        (PartKind.THIXOTROPE, "thixotropic agent", 1.6, 1.0),
    )  # fmt: skip
    return _mix(MixFor(MixKind.COAT, coat_id(coat)), cup, parts, 780)


def _coat(
    number: int, name: str, mm: float, pct: float, pigment: PigmentColor, gesture: Gesture, ml: float, net: float,
    mixed: Range, cups: int,
) -> CoatPlan:  # fmt: skip
    return CoatPlan(coat_id(number), name, mm, pct, pigment, gesture, 1, ml, net, mixed, cups)


_COATS = (
    _coat(1, "detail", 0.6, 0.3, PigmentColor.YELLOW, Gesture.STIPPLE, 30.1, 32.5, Range(34.0, 37.0, 41.0), 1),
    _coat(2, "brushed", 1.4, 1.15, PigmentColor.BLUE, Gesture.BRUSH, 74.2, 80.1, Range(84.0, 90.5, 99.0), 2),
    _coat(3, "stick", 2.0, 2.0, PigmentColor.RED, Gesture.STICK, 112.6, 121.6, Range(128.0, 138.0, 151.0), 3),
)
_REMOVAL = RemovalPlan(True, False, 0.0, 12, 4000, 0, 310.0)
_SKIN_PARTS = (
    (PartKind.A, "A", 61.2, 1.05), (PartKind.POWDER, "bronze powder", 178.4, 3.0), (PartKind.B, "B", 64.1, 1.1),
)  # fmt: skip
_BACK_PARTS = (
    (PartKind.A, "A", 102.0, 1.05), (PartKind.B, "B", 106.9, 1.1), (PartKind.TINT, "black", 0.6, 1.0),
)  # fmt: skip
_MIXES = (
    _rubber_cup(1, 1, 17.3, 17.3), _rubber_cup(2, 1, 21.4, 21.5), _rubber_cup(2, 2, 21.4, 21.4),
    _rubber_cup(3, 1, 21.8, 21.8), _rubber_cup(3, 2, 21.9, 21.8), _rubber_cup(3, 3, 21.7, 21.8),
    _mix(SKIN, 1, _SKIN_PARTS, 95), _mix(BACK_FILL, 1, _BACK_PARTS, 240),
)  # fmt: skip
_LATEX = (
    "latex",
    Severity.STOP,
    "No latex gloves near this rubber: they stop the cure. Vinyl, or nitrile known to be free of sulfur.",
)
_SKIN = ("skin", Severity.HEED, "Gloves and goggles on. The safety data sheet of both parts says what else.")
_BLADE = ("blade", Severity.HEED, "Cut away from yourself and from the hand that holds; a dull blade slips.")
Said = tuple[str, Severity, str]
_GIVEN: list[Caution] = []


def _written(id_: str) -> tuple[Line, ...]:
    return (own_line(f"Seen, {id_.replace('-', ' ')}"),) if id_ in ("receive", "skin", "weigh-cast") else ()


def _step(
    id_: str, title: str, phase: Phase, per: Per = Per.MOLD, mixes: tuple[MixId, ...] = (), wait: Range | None = None,
    lift: float | None = None, cautions: tuple[Said, ...] = (_SKIN,), labor: float = 15.0, coat: CoatId | None = None,
) -> StepPlan:  # fmt: skip
    step = StepId(id_)
    made = tuple(caution(step, rule, grave, (own_line(text),), "common practice") for rule, grave, text in cautions)
    _GIVEN.extend(made)
    return StepPlan(
        step, phase, coat, per, own_line(title), labor, wait,
        tuple(map(own_line, ("Clean sticks", "timer", "lamp held low"))),
        (own_line(f"Do what {id_} asks, from the top down and into the hollows first."),
         own_line("Look from below with the mirror.")),
        (own_line("The step before is done and signed."),), _written(id_),
        tuple(each.id for each in made), mixes, lift, (),
    )  # fmt: skip


def _plain(ids: str, phase: Phase, per: Per = Per.MOLD, cautions: tuple[Said, ...] = (_SKIN,)) -> list[StepPlan]:
    return [_step(id_, id_.replace("-", " ").capitalize(), phase, per, cautions=cautions) for id_ in ids.split()]


def _coat_steps() -> list[StepPlan]:
    rows = []
    for number, coat in enumerate(_COATS, start=1):
        mixes, stem = tuple(mix.id for mix in _MIXES if mix.for_.coat == coat.id), f"coat-{number}"
        mix, lay = f"Mix coat {number} of 3: {coat.name}", f"Lay coat {number} of 3: {coat.name}"
        rows += [
            _step(f"{stem}-mix", mix, Phase.COAT, mixes=mixes, cautions=(_SKIN, _LATEX), coat=coat.id),
            _step(stem, lay, Phase.COAT, cautions=(_LATEX,), labor=25, coat=coat.id),
            _step(f"{stem}-look", "Look, repair, wait", Phase.COAT, wait=Range(32.0, 40.0, 55.0), cautions=(),
                  coat=coat.id),
        ]  # fmt: skip
    return rows


def _steps() -> tuple[StepPlan, ...]:
    cure, skin, back = Range(960.0, 1200.0, 1440.0), (_MIXES[6].id,), (_MIXES[7].id,)
    return (
        *_plain("receive lay-out clean mount release", Phase.BEFORE_RUBBER),
        _step("patch-test", "Patch test", Phase.BEFORE_RUBBER, wait=cure),
        *_coat_steps(),
        _step("fill", "Fill", Phase.COAT, coat=coat_id(3)),
        *_plain("trim-flange", Phase.GLOVE),
        *_plain("mark-seam clay-wall wax-rubber", Phase.BEFORE_SHELL),
        _step("shell-2", "Lay shell 2", Phase.SHELL_2, wait=cure),
        _step("shell-1", "Lay shell 1", Phase.SHELL_1),
        _step("shell-dry", "Let it dry", Phase.SHELL, wait=cure),
        _step("open-shell", "Open the shell", Phase.OFF_ORIGINAL, lift=6.4, cautions=(_BLADE,)),
        _step("peel", "Peel the glove", Phase.OFF_ORIGINAL),
        *_plain("wash-glove reseat close-shell leak-check", Phase.MOLD_READY, Per.CAST, ()),
        _step("skin", "Cast the skin", Phase.SKIN, Per.CAST, skin),
        _step("back-fill", "Back-fill", Phase.BACK_FILL, Per.CAST, back),
        *_plain("demold", Phase.OUT_OF_MOLD, Per.CAST),
        *_plain("flash weigh-cast burnish", Phase.DRESSING, Per.CAST),
        *_plain("dark-wax", Phase.WAXING, Per.CAST),
        *_plain("pack", Phase.LAST, Per.CAST),
        _step("store-mold", "Clean and store the mold", Phase.LAST, Per.EDITION),
    )


def _need(id_: str, name: str, low: float, likely: float, high: float, unit: NeedUnit, for_: NeedGroup) -> NeedPlan:
    return NeedPlan("", id_, name, Range(low, likely, high), unit, for_)


_GRAM, _EACH, _RUBBER = NeedUnit.GRAM, NeedUnit.EACH, NeedGroup.RUBBER
_NEEDS = (
    _need("slow-a10", "Addition-cure silicone, Shore A 10, slow, A and B", 248.0, 266.0, 291.0, _GRAM, _RUBBER),
    _need("pigment-yellow", "Silicone pigment, yellow", 0.3, 0.4, 0.6, _GRAM, _RUBBER),
    _need("release", "Release agent, petroleum jelly thinned", 4.0, 6.0, 9.0, _GRAM, _RUBBER),
    _need("plaster-bandage", "Plaster bandage, rolls", 3.0, 3.0, 4.0, _EACH, NeedGroup.SHELL),
    _need("clay", "Modeling clay without sulfur", 300.0, 380.0, 460.0, _GRAM, NeedGroup.SHELL),
    _need("urethane-fast", "Urethane casting resin, fast, A and B", 2800.0, 3010.0, 3300.0, _GRAM, NeedGroup.CASTING),
    _need("bronze", "Bronze powder, atomized", 4100.0, 4281.6, 4500.0, _GRAM, NeedGroup.CASTING),
    _need("steel-wool", "Steel wool, finest", 12.0, 12.0, 18.0, _EACH, NeedGroup.FINISHING),
    _need("gloves", "Vinyl gloves, pairs", 60.0, 72.0, 90.0, _EACH, NeedGroup.PROTECTION),
)


FLANGE = FlangePlan(
    35.0, 15.0, Frame(-65.0, -60.0, 65.0, 60.0), ((-30.0, -25.0), (30.0, -25.0), (30.0, 25.0), (-30.0, 25.0)),
    ((-65.0, -60.0), (35.0, -60.0), (65.0, -30.0), (65.0, 45.0), (50.0, 60.0), (-65.0, 60.0)),
    (KeyCut((35.0, -60.0), (65.0, -30.0), 42.43), KeyCut((65.0, 45.0), (50.0, 60.0), 21.21)), 15_037.5, 463.6,
)  # fmt: skip


_FRONT = ((6.0, 1.2, 21.0), (26.4, 3.0, 24.7), (60.0, -14.6, 19.5), (121.0, 4.4, 33.0))
_BACK = ((90.0, -2.0, 40.0), (41.0, 8.3, 37.5), (6.0, 1.2, 21.0))
SEAM = SeamPlan(
    (
        SeamLine(
            (
                *(SeamStation(ViewSide.FRONT, *at, seen=True) for at in _FRONT),
                SeamStation(ViewSide.BACK, 164.0, 0.2, 58.0, seen=False),
                *(SeamStation(ViewSide.BACK, *at, seen=True) for at in _BACK),
            ),
            closed=False,
            piece=2,
            begins=0,
            ends=1,
        ),
        SeamLine(tuple(SeamStation(ViewSide.RIGHT, 70.0 + k, 5.0 * k, 9.0, seen=True) for k in range(3)), True, 2),
    ),
    (SeamCrossing(((1.2, -39.0), (1.2, -60.0))), SeamCrossing(((-1.2, 39.0), (2.0, 50.0), (-1.2, 60.0)))), 10.0, 40.0,
)  # fmt: skip


def plan(units: UnitSystem = UnitSystem.METRIC) -> Plan:
    """A plan that hangs together: totals run on, coats add up; its numbers are made up for the tests."""
    spots = tuple(
        SpotPlan(spot_id(number), at, depth, ml, round(ml * 1.08, 1), coat_id(2))
        for number, (at, depth, ml) in enumerate(
            zip(mold_meshes().spots, (6.2, 3.1, 4.4), (2.1, 0.6, 1.2), strict=True), start=1
        )
    )
    part = PartPlan(31.0, 33.5, Range(34.0, 36.0, 39.0))
    fill = PartPlan(3.9, 4.2, Range(4.3, 4.6, 5.1))
    small = (SmallSpots(4, 0.55, 0.6, coat_id(2)),)
    tight = TightPlace((0.0, 0.0, 88.0), 96.0, 150.0, 0.0, 270.0, 1.8)
    peel = PeelPlan(PeelWay.ROLL, 3.27, PeelShape(1.8, 210.0, (tight,), 13.0, 0.1))
    glove = GlovePlan(Range(248.0, 251.8, 256.0), _COATS, part, fill, spots, small, (), None, peel)
    pieces = tuple(
        PiecePlan(f"mold/shell-{k}.stl", (x, 0.0, 0.0), 3.9, 310.0, edge_mm)
        for k, x, edge_mm in ((1, -1.0, 0.0), (2, 1.0, 512.0))
    )
    _GIVEN.clear()
    steps = _steps()
    return Plan(
        SCHEMA_VERSION, "Otter on a stone", "7c4103fa9be215d60c88aa41f3e9b7d25016c3ea", units,
        (Assumption("cast.powder", "bronze", "", "default"),),
        OriginalPlan(402.0, 310.0, 160.0, True, "scan", (), HOLES, 1.0, 0.1), MouthPlan(2800.0, 52.0, 1, None),
        FLANGE, glove,
        ShellPlan(pieces, Seam.WALL, 512.0, SEAM, 25.0, 0.0, 0.0, 15.0, 6.0, _REMOVAL),
        BandagePlan(
            4, 2, 36, 250.0, 100.0, 3, 620.0, Range(560.0, 720.0, 880.0), 3000.0, (StripsOfPiece(18, 1500.0),) * 2
        ),
        None,
        PartingPlan(Range(8.0, 12.0, 20.0), Range(3.0, 6.0, 12.0), Range(280.0, 380.0, 500.0)),
        ClosurePlan(2.1, (14.2, 14.2), (0.0, 0.0), 3, 0, 6, 8, 100.0),
        CastPlan(402.0, SkinPlan(4.0, 118.0), 284.0, Range(610, 655, 700), 58.2, 14.6, 78.1, Range(0.2, 0.4, 0.6)),
        _MIXES, _NEEDS, steps, tuple(_GIVEN), totals_of(steps, Hours(540.0, 1020.0), 240.0, {}),
        rubber="addition-cure silicone, Shore A 10, slow", shell_making=Making.BANDAGE, temperature_c=22.0,
        scale_g=0.1, marks_ml=None, count=30,
    )  # fmt: skip
