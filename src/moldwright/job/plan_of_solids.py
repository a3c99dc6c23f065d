"""The plan's parts that the solids give: the original, its mouth and the shell."""

from __future__ import annotations

from moldwright.geometry.handles import Handle
from moldwright.geometry.seam_kind import Seam
from moldwright.job.named_meshes import shell_file
from moldwright.job.standing import Settled
from moldwright.mold.mouth import Mounted, plinth_plan
from moldwright.mold.seam_stations import seam_plan
from moldwright.mold.shell import BuiltShell
from moldwright.mold.shell_settings import ShellSettings
from moldwright.plan.flange import FlangePlan
from moldwright.plan.mold import LipPlan, PiecePlan, RemovalPlan, ShellPlan
from moldwright.plan.original import Hole, MouthPlan, OriginalPlan, Source, treat_of
from moldwright.scan.repairs import Repair


def original_plan(watertight: bool, settled: Settled, mounted: Mounted, holes: tuple[Hole, ...]) -> OriginalPlan:
    """The original as it stands, with its repairs and through-holes.

    Parameters
    ----------
    watertight : whether the file's mesh was closed.
    settled, mounted, holes : the original on the board, on its plinth, and the through-holes that rubber meets.
    """
    standing, mesh = settled.standing, mounted.original
    low, high = mesh.bounds_mm
    return OriginalPlan(
        volume_ml=mesh.volume_ml,
        area_cm2=mesh.area_mm2 / 100,
        height_mm=float(high[2] - low[2]),
        watertight=watertight and standing.was_closed,
        source=Source.SCAN,
        repairs=repairs_of(settled),
        holes=holes,
        resolution_mm=standing.step_mm,
        error_mm=standing.error_mm,
    )


def repairs_of(settled: Settled) -> tuple[Repair, ...]:
    """What was mended on the scan, reading and standing together.

    Parameters
    ----------
    settled : the original on the board.
    """
    return (*settled.repairs, *settled.standing.repairs)


def holes_of(handles: tuple[Handle, ...], glove_mm: float) -> tuple[Hole, ...]:
    """The through-holes, numbered in their order, where and how wide, and what is done with them.

    Parameters
    ----------
    handles : those of the original, or of original and plinth together.
    glove_mm : thickness of all coats together [mm].
    """
    return tuple(
        Hole(
            number,
            (round(h.at[0], 1), round(h.at[1], 1), round(h.at[2], 1)),
            round(h.width_mm, 1),
            treat_of(h.width_mm, glove_mm),
            (round(h.across_mm[0], 1), round(h.across_mm[1], 1)),
        )
        for number, h in enumerate(handles, start=1)
    )


def mouth_plan(mounted: Mounted) -> MouthPlan:
    """The bare original's mouth and the plinth that widens it.

    Parameters
    ----------
    mounted : the original on the board or on its plinth.
    """
    mouth = mounted.mouth
    return MouthPlan(mouth.area_mm2, mouth.narrowest_mm, mouth.loops, plinth_plan(mounted))


def shell_plan(shell: BuiltShell, settings: ShellSettings, flange: FlangePlan, lip: LipPlan) -> ShellPlan:
    """The shell's pieces in the order of removal, and the proof that they come off.

    Parameters
    ----------
    shell : the finished shell.
    settings : the shell's dimensions.
    flange : in whose frame the seam is measured.
    lip : as built.
    """
    removal = shell.removal
    return ShellPlan(
        pieces=tuple(
            PiecePlan(shell_file(number), piece.draw, piece.fill_ml, piece.mesh.volume_ml, edge_mm)
            for number, (piece, edge_mm) in enumerate(zip(shell.pieces, shell.edges_mm, strict=True), 1)
        ),
        seam=settings.seam,
        seam_mm=shell.seam_mm,
        seam_line=seam_plan(shell.seam, shell.gloved, flange),
        seam_flange_mm=settings.seam_flange_mm if settings.seam is Seam.WALL else 0.0,
        lap_mm=settings.lap_mm if settings.seam is Seam.LAP else 0.0,
        lap_left_out_share=shell.lap_left_out_share,
        lip_mm=settings.base_lip_mm,
        thickness_mm=settings.wall_mm,
        removal=RemovalPlan(
            removal.free,
            settings.seam is Seam.LAP or shell.in_order,
            removal.overlap_mm3,
            removal.offsets,
            removal.rays,
            removal.rays_blocked,
            removal.control_overlap_mm3,
        ),
        lip=lip,
    )
