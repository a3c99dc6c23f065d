"""How far a seam that is drawn from the printed sheets lies from the computed one, on the flange and on the rubber."""

from __future__ import annotations

import numpy as np
from redrawn import INCH_MM, Bench, apart_mm, filled, place, redrawn

from moldwright.geometry.mesh import Mesh
from moldwright.mold.seam_line import SeamCurve
from moldwright.plan.plan import Plan
from moldwright.sheets.seam_page import crossing_rows, station_blocks
from moldwright.sheets.templates_data import view_drawing
from moldwright.sheets.templates_drawn import side_drawings
from moldwright.sheets.tiles import Pen, tiles
from moldwright.units.system import UnitSystem


def bench_of(plan: Plan, gloved: Mesh) -> Bench:
    frame = plan.flange.frame
    return Bench(gloved, (frame.length_mm, frame.breadth_mm), (frame.left_mm, frame.front_mm))


def from_the_table(plan: Plan, curve: SeamCurve, gloved: Mesh) -> tuple[float, float]:
    """The distance within which 95 % of both lines lie [mm], on the rubber and on the flange: by the printed texts."""
    unit_mm = INCH_MM if plan.units is UnitSystem.US else 1.0
    bench = bench_of(plan, gloved)
    exact = np.concatenate([filled(part.points, part.closed) for part in curve.wall])
    rubber = apart_mm(redrawn(bench, station_blocks(plan.shell.seam_line, plan.units), unit_mm), exact)
    told = [
        np.array([place(each, unit_mm) for each in row[1:]])
        for row in crossing_rows(plan.shell.seam_line, plan.flange.frame, plan.units)
    ]
    drawn = [bench.corner + filled(places, closed=False) for places in told]
    ways = [filled(part.points[:, :2], closed=False) for part in curve.flange]
    flange = max((apart_mm(one, way) for one, way in zip(drawn, ways, strict=True)), default=0.0)
    return rubber, flange


def from_the_views(plan: Plan, curve: SeamCurve, gloved: Mesh) -> float:
    """How far 95 % of what the full-size views show of the seam lies from it [mm]: each tile's line, pricked through to
    a fifth of a millimeter, laid on the first of the surface that is met from its side (trimesh)."""
    bench, wide, tall = bench_of(plan, gloved), 186.0, 216.0
    laid = []
    for seen in side_drawings(gloved, curve, plan.flange.frame).sides:
        drawing = view_drawing(plan, seen)
        for tile in tiles(drawing, wide, tall):
            corner = [drawing.low[0] + tile.column * (wide - 10), drawing.high[1] - tile.row * (tall - 10)]
            for stroke in tile.strokes:
                if stroke.pen is Pen.SEAM:
                    flat = np.round(filled(np.array(stroke.points), closed=False) * 5) / 5
                    laid.append(bench.met(seen.side.value[0].upper(), flat * [1, -1] + corner))
    exact = np.concatenate([filled(part.points, part.closed) for part in (*curve.wall, *curve.flange)])
    return apart_mm(np.concatenate(laid), exact, both=False)
