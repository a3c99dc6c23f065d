"""Matting in a shell of gypsum: squares for each layer of each piece."""

from __future__ import annotations

from math import ceil, fsum

from moldwright.materials import Shell
from moldwright.materials.words import Making
from moldwright.mold.measures import ShellMeasures, walls_mm2
from moldwright.plan.mold import MatsOfPiece, MatsPlan

LAP_MM = 30.0
"""How far squares lap: common practice, no source."""
FACE_LAYERS = 1
"""The first is brushed on thin and bare: common practice, no source."""
USUAL_LAYERS = 3
"""Where the sheet tells none: common practice, no source."""


def mats_plan(shell: Shell, measures: ShellMeasures, waste: float) -> MatsPlan | None:
    """The matting of a shell; None for one of another kind, or whose sheet tells none.

    A square of edge e that laps l on its neighbors covers `(e - l)^2`: a layer of area A takes `A (1 + waste) /
    (e - l)^2` of them, rounded up for each piece, and each weighs `e^2 g`. The area of a piece is its share of the
    surface, and its side of the seam's flanges.

    Parameters
    ----------
    shell : its sheet
    measures : the shell's
    waste : share lost, 0 to 1

    Source: common practice, no source.
    """
    if shell.making is not Making.GYPSUM or shell.mat_g_m2 is None or shell.mat_square_mm is None:
        return None
    edge_mm, cloth = shell.mat_square_mm.likely, shell.mat_g_m2
    layers = round(shell.layers.likely) if shell.layers else USUAL_LAYERS
    matted = max(layers - FACE_LAYERS, 1)
    whole_mm2 = walls_mm2(measures.area_mm2, measures.seam_mm, measures.seam_flange_mm)
    areas_mm2 = [whole_mm2 * share for share in measures.shares]
    squares = [ceil(area * (1.0 + waste) / (edge_mm - LAP_MM) ** 2 - 1e-9) for area in areas_mm2]
    one_g = edge_mm**2 * 1e-6 * cloth.likely
    pieces = tuple(
        MatsOfPiece(count, area, round(count * matted * one_g, 1))
        for count, area in zip(squares, areas_mm2, strict=True)
    )
    mass = cloth.range * (fsum(piece.mass_g for piece in pieces) / cloth.likely)
    return MatsPlan(layers, matted, edge_mm, LAP_MM, mass, pieces)
