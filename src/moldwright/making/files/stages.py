"""Stages: the files of a plan's folder that depend on the solids alone, and its pictures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import PurePath

import numpy as np

from moldwright.geometry.mesh import Mesh
from moldwright.job.named_meshes import named_meshes, shell_file
from moldwright.job.rubbering import Glove
from moldwright.making.files.solids import SolidFiles
from moldwright.mold.mouth import Mounted
from moldwright.mold.plates import LaidPlate, LaidPlates
from moldwright.mold.shell import BuiltShell
from moldwright.plan.flange import Frame
from moldwright.plan.printing import plate_file
from moldwright.plan.seam import SeamPlan
from moldwright.sheets.apart import drawn_apart
from moldwright.sheets.levels_drawn import level_drawings
from moldwright.sheets.model_files import NamedSolid, body_bytes, package_bytes
from moldwright.sheets.picture import Pictures
from moldwright.sheets.pictures import MoldMeshes, draw
from moldwright.sheets.side_drawing import Drawings
from moldwright.sheets.templates_drawn import side_drawings
from moldwright.sheets.unrolled_drawn import unrolled_seam

MODEL, MODEL_APART = "mold/mold.3mf", "mold/mold-apart.3mf"
ORIGINAL, MOUNT, GLOVE, SHELL = "#8b9a94", "#b9c2bc", "#5b93c9", "#e3dfd4"
PIECES = ("#e3dfd4", "#8fb3a5", "#d9a86c", "#a7a3c9")
"""Parts by their piece, first off first."""
Point = tuple[float, float, float]
LetteredPoint = tuple[str, Point]


def solid_files(mounted: Mounted, glove: Glove, shell: BuiltShell) -> SolidFiles:
    """Every solid as STL, and all but the gloved one, which doubles others, named and colored in 3MF: as they stand
    and, in a file of its own, drawn apart.

    Parameters
    ----------
    mounted, glove, shell : the finished solids.
    """
    meshes = named_meshes(mounted, glove, shell)
    contents = {name: body_bytes(mesh, PurePath(name).name) for name, mesh in meshes.items()}
    whole, bare = _colored(meshes, len(shell.pieces)), [mesh for mesh in (mounted.original, mounted.plinth) if mesh]
    pieces, draws = [piece.mesh for piece in shell.pieces], [piece.draw for piece in shell.pieces]
    apart = drawn_apart(bare, glove.mesh, pieces, draws)
    ways = [np.zeros(3)] * len(bare) + [apart.glove, *apart.pieces]
    moved = [replace(solid, way_mm=tuple(way.tolist())) for solid, way in zip(whole, ways, strict=True)]
    packages = {MODEL: package_bytes(whole, "mold"), MODEL_APART: package_bytes(moved, "mold drawn apart")}
    return SolidFiles({**contents, **packages})


def plate_files(plates: LaidPlates) -> SolidFiles:
    """One 3MF for each plate, its parts named and colored by their piece.

    Parameters
    ----------
    plates : laid out.
    """
    return SolidFiles(
        {plate_file(n): package_bytes(_on_plate(plate), f"plate {n}") for n, plate in enumerate(plates.plates, start=1)}
    )


def _on_plate(plate: LaidPlate) -> list[NamedSolid]:
    return [
        NamedSolid(f"shell-{laid.part.piece} part {laid.part.number}", laid.mesh, PIECES[laid.part.piece - 1])
        for laid in plate.parts
    ]


def _colored(meshes: Mapping[str, Mesh], count: int) -> list[NamedSolid]:
    colors = (("original", ORIGINAL), ("mount", MOUNT), ("glove", GLOVE))
    named = {PurePath(name).stem: mesh for name, mesh in meshes.items()}
    inside = [NamedSolid(name, named[name], color) for name, color in colors if name in named]
    pieces = [PurePath(shell_file(number)).stem for number in range(1, count + 1)]
    return inside + [NamedSolid(name, named[name], SHELL) for name in pieces]


def drawings_of(shell: BuiltShell, seam: SeamPlan, frame: Frame, level_cuts_mm: tuple[float, ...]) -> Drawings:
    """The drawings of the templates.

    Parameters
    ----------
    shell : the gloved piece and the seam on it.
    seam : its stations.
    frame : at the middle of whose sides the plumb lines stand.
    level_cuts_mm : heights that were asked for.
    """
    gloved, pieces = shell.gloved, [piece.mesh for piece in shell.pieces]
    return replace(
        side_drawings(gloved, shell.seam, frame),
        levels=level_drawings(gloved, pieces, shell.seam, level_cuts_mm),
        unrolled=unrolled_seam(gloved, shell.seam, seam, frame),
    )


def pictures_of(
    mounted: Mounted,
    glove: Glove,
    shell: BuiltShell,
    spots: tuple[Point, ...],
    holes: tuple[LetteredPoint, ...],
    slit: tuple[tuple[Point, ...], ...],
) -> Pictures:
    """The sheets' pictures.

    Parameters
    ----------
    mounted, glove, shell : the finished solids.
    spots : where rubber is packed, in the order of the plan's list [mm].
    holes : the through-holes, each with its letter [mm].
    slit : the lines of a slit, stations in order [mm].
    """
    pieces, draws = tuple(piece.mesh for piece in shell.pieces), tuple(piece.draw for piece in shell.pieces)
    bare = mounted.original, mounted.plinth
    return draw(MoldMeshes(*bare, glove.mesh, shell.gloved, pieces, draws, spots, holes, slit))
