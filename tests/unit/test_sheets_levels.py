"""Level cuts and the unrolled seam of the templates: against trimesh's sections, and closed forms of a cone."""

from __future__ import annotations

import geometry_bodies as bodies
import numpy as np
import pytest
from rolled_back import apart_mm, rolled_back_mm
from sheets_fixture import mold_meshes, plan
from test_sheets_templates import curve

from moldwright.geometry.mesh import Mesh
from moldwright.mold.seam_line import SeamCurve, SeamPart, SeamRise
from moldwright.plan.flange import Frame
from moldwright.plan.seam import SeamLine, SeamPlan, SeamStation, ViewSide
from moldwright.sheets.level_drawing import level_drawing, unrolled_drawing
from moldwright.sheets.levels_drawn import level_drawings
from moldwright.sheets.side_drawing import NOT_UNROLLED
from moldwright.sheets.tiles import Pen
from moldwright.sheets.unrolled_drawn import unrolled_seam

FRAME = Frame(-50.0, -50.0, 50.0, 50.0)
NO_STATIONS = SeamPlan((), (), 10.0, 40.0)
CUT_MM, ROLLED_MM = 0.5, 3.0


def upright(x_mm: float, y_mm: float, tall_mm: float) -> SeamCurve:
    """A seam that goes straight up."""
    points = np.array([(x_mm, y_mm, z) for z in np.arange(5.0, tall_mm, 1.0)])
    return SeamCurve((SeamRise(SeamPart(points, False), 2),))


def cone() -> Mesh:
    """Of 30 mm radius at the board, 20 mm at 60 mm."""
    return bodies.mesh(bodies.cone(30, 20, 60, 256))


@pytest.mark.parametrize("pieces", [1, 2, 3, 4])
def test_level_cuts_are_those_of_another_slicer(pieces: int) -> None:
    made = mold_meshes()
    shell = [made.shell[n % 2] for n in range(pieces)]
    levels = level_drawings(made.gloved, shell, curve())
    tall = made.gloved.bounds_mm[1][2]
    assert [level.height_mm / tall for level in levels] == pytest.approx([0.2, 0.4, 0.6, 0.8], abs=0.5 / tall)
    for level in levels:
        assert len(level.shell) == pieces
        assert apart_mm(level.rubber, made.gloved, level.height_mm) <= CUT_MM
        for drawn, piece in zip(level.shell, shell, strict=True):
            assert apart_mm(drawn, piece, level.height_mm) <= CUT_MM


def test_heights_that_were_asked_for_stand_in_place_of_the_usual_ones() -> None:
    """A cone of 30 mm at the board and 20 mm at 60 mm: 27 and 22 mm at 18 and 48 mm, within half a facet."""
    levels = level_drawings(cone(), (), SeamCurve(()), (18.0, 48.0))
    assert [level.height_mm for level in levels] == [18.0, 48.0]
    radii = [max(np.hypot(x, y) for ring in level.rubber for x, y in ring) for level in levels]
    assert radii == pytest.approx([27.0, 22.0], abs=0.05)


def test_the_seam_is_on_the_cut_where_it_passes() -> None:
    """The plane x = 0.5 mm: once in front, once behind."""
    for level in level_drawings(mold_meshes().gloved, (), curve()):
        assert len(level.seam) == 2
        assert [x for x, _ in level.seam] == pytest.approx([0.5, 0.5], abs=0.6)
        assert min(y for _, y in level.seam) < 0 < max(y for _, y in level.seam)


def test_a_cone_unrolls_to_its_girths() -> None:
    """2 pi r at each height, and a seam straight up at its right is a quarter of the way round."""
    seen = unrolled_seam(cone(), upright(30.0, 0.0, 10.0), NO_STATIONS, FRAME)
    for girth, height in seen.edge:
        assert girth == pytest.approx(2 * np.pi * (30.0 - height / 6.0), rel=2e-3)
    (line,) = seen.lines
    for girth, height in line:
        assert girth == pytest.approx(np.pi / 2 * (30.0 - height / 6.0), abs=0.6)
    assert seen.share == pytest.approx(1.0)


@pytest.mark.parametrize(("x", "y", "turn"), [(20, 0, 0.25), (0, 20, 0.5), (-20, 0, 0.75)])
def test_girth_goes_from_the_front_to_the_right(x: float, y: float, turn: float) -> None:
    rod = bodies.mesh(bodies.cone(20, 20, 40, 256))
    (line,) = unrolled_seam(rod, upright(x, y, 36.0), NO_STATIONS, FRAME).lines
    assert [girth / (2 * np.pi * 20.0) for girth, _ in line] == pytest.approx([turn] * len(line), abs=2e-3)


def test_a_line_that_passes_the_front_is_begun_anew() -> None:
    """Across the front of a rod from 5 mm right to 5 mm left: two lines, at both edges of the drawing."""
    rod = bodies.mesh(bodies.cone(20, 20, 40, 256))
    x = np.linspace(5.0, -5.0, 41)
    points = np.stack([x, -np.sqrt(400.0 - x**2), 10.0 + 0.5 * np.arange(41)], axis=1)
    seen = unrolled_seam(rod, SeamCurve((SeamRise(SeamPart(points, False), 2),)), NO_STATIONS, FRAME)
    right, left = seen.lines
    assert max(girth for girth, _ in right) < 6.0
    assert min(girth for girth, _ in left) > 2 * np.pi * 20.0 - 6.0


def test_where_no_tape_lies_on_the_rubber_nothing_is_unrolled() -> None:
    """Two towers side by side, and a gear whose outline is far longer than a taut tape about it."""
    towers = bodies.box(20, 20, 60).translate((-25, 0, 0)) + bodies.box(20, 20, 60).translate((25, 0, 0))
    gear = bodies.cone(12, 12, 60)
    for angle in range(0, 360, 30):
        gear += bodies.box(60, 4, 60).rotate((0, 0, angle))
    for body in (bodies.mesh(towers + bodies.box(90, 40, 4)), bodies.mesh(gear)):
        assert unrolled_seam(body, upright(30.0, 0.0, 50.0), NO_STATIONS, FRAME) == NOT_UNROLLED


def test_stations_are_where_the_tape_leads() -> None:
    """A tape of that girth at that height comes to the station again (trimesh); on a cone it is angle times radius."""
    turns, heights = np.radians([20.0, 75.0, 130.0, 250.0, 340.0]), (10.0, 20.0, 30.0, 40.0, 50.0)
    radii = [30.0 - height / 6.0 for height in heights]
    stations = tuple(
        SeamStation(ViewSide.FRONT, height, radius * np.sin(turn), 50.0 - radius * np.cos(turn), True)
        for turn, radius, height in zip(turns, radii, heights, strict=True)
    )
    seam = SeamPlan((SeamLine(stations, False, 2),), (), 10.0, 40.0)
    seen = unrolled_seam(cone(), upright(25.0, 0.0, 55.0), seam, FRAME)
    assert [number for number, _, _ in seen.stations] == [1, 2, 3, 4, 5]
    assert [girth for _, girth, _ in seen.stations] == pytest.approx(list(turns * radii), abs=0.6)
    assert rolled_back_mm(seen, seam, FRAME, cone()) <= ROLLED_MM


def test_the_drawings_hold_all_that_is_cut() -> None:
    made = mold_meshes()
    for level in level_drawings(made.gloved, made.shell, curve()):
        drawing = level_drawing(plan(), level)
        points = [p for stroke in drawing.strokes if stroke.pen in (Pen.FOOT, Pen.LIP) for p in stroke.points]
        assert points
        assert all(drawing.low[k] <= p[k] <= drawing.high[k] for p in points for k in (0, 1))
        assert f"Level at {level.height_mm:g} mm" == drawing.name
    seen = unrolled_seam(made.gloved, curve(), plan().shell.seam_line, plan().flange.frame)
    drawing = unrolled_drawing(plan(), seen)
    assert {label.text for label in drawing.labels} >= {str(number) for number, _, _ in seen.stations}
