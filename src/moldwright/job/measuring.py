"""Stage: everything that is measured on the finished solids, so that a plan can be reckoned without them."""

from __future__ import annotations

from dataclasses import replace
from math import fsum

from moldwright.geometry.field import base_area_mm2, without_base
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.outline import ring_length_mm
from moldwright.geometry.seam_kind import Seam
from moldwright.job.measured import Measured, Sampling
from moldwright.job.plan_of_solids import holes_of, mouth_plan, original_plan, shell_plan
from moldwright.job.rubbering import Glove
from moldwright.job.standing import Gaps, Settled, shell_step
from moldwright.mold.glove import CoatedBody
from moldwright.mold.lip import lip_reach
from moldwright.mold.measures import (
    CavityMeasures,
    GloveMeasures,
    MoldMeasures,
    PieceMeasures,
    ShellMeasures,
    Skin,
    SpotKind,
    walls_mm2,
)
from moldwright.mold.mouth import Mounted, plinth_plan
from moldwright.mold.shell import BuiltShell
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.spots import spots_of
from moldwright.mold.thickness import thickness_of
from moldwright.plan.mold import LipPlan
from moldwright.plan.original import Hole
from moldwright.scan.scan import Scan
from moldwright.steps.shape_cautions import ShapeFindings


def measure(
    scan: Scan,
    settled: Settled,
    mounted: Mounted,
    gaps: Gaps,
    skin: Skin,
    coated: CoatedBody,
    shell: BuiltShell,
    glove: Glove,
    settings: ShellSettings,
) -> Measured:
    """Measure the finished solids.

    Parameters
    ----------
    scan : what was read.
    settled, mounted, gaps, skin, coated, shell, glove : the finished solids.
    settings : the shell's dimensions.
    """
    standing, holes = settled.standing, holes_of(gaps.handles, coated.flange_mm)
    step_mm = max(standing.step_mm, shell_step(settled))
    thickness = thickness_of(shell.gloved, mounted.body, coated.flange_mm, step_mm)
    meshes = [piece.mesh for piece in shell.pieces]
    lip = lip_reach(meshes, coated.outline, coated.flange_mm, settings, shell.clearance_mm)
    return Measured(
        measures=MoldMeasures(
            piece=piece_measures(settled, mounted, holes),
            cavity=cavity_measures(mounted),
            flange=coated.flange,
            glove=replace(_glove(coated, shell, glove), thickness=thickness),
            shell=_shell(shell, coated, settings, lip),
            skin=skin,
        ),
        original=original_plan(scan.watertight, settled, mounted, holes),
        mouth=mouth_plan(mounted),
        shell=shell_plan(shell, settings, coated.flange, lip),
        shape=ShapeFindings(shell.uncovered_share, shell.lap_left_out_share),
        stance=settled.stance,
        sampling=Sampling(standing.step_mm, standing.error_mm, standing.exact, shell_step(settled), shell.clearance_mm),
    )


def piece_measures(settled: Settled, mounted: Mounted, holes: tuple[Hole, ...]) -> PieceMeasures:
    """What the bare original measures.

    Parameters
    ----------
    settled, mounted : the original on the board, and on its plinth.
    holes : its through-holes.
    """
    original = mounted.original
    low, high = settled.standing.mesh.bounds_mm
    return PieceMeasures(
        volume_ml=original.volume_ml,
        area_mm2=without_base(original).area_mm2,
        height_mm=float(high[2] - low[2]),
        widest_mm=float((high - low)[:2].max()),
        holes=holes,
    )


def cavity_measures(mounted: Mounted) -> CavityMeasures:
    """What a full cast fills.

    Parameters
    ----------
    mounted : the original on its plinth.
    """
    body, plinth = mounted.body, plinth_plan(mounted)
    bare = body.volume_ml, body.area_mm2 - base_area_mm2(body)
    if plinth is None:
        return CavityMeasures(*bare, plinth_ml=0.0, plinth_height_mm=0.0)
    return CavityMeasures(*bare, plinth.volume_ml, plinth.height_mm, plinth.length_mm, plinth.breadth_mm)


def _glove(coated: CoatedBody, shell: BuiltShell, glove: Glove) -> GloveMeasures:
    """The fill is what coats and flange leave of the glove, so that the three sum to its solid."""
    fill_ml = glove.volume_ml - sum(coated.coat_ml) - coated.flange_ml
    spots = spots_of(coated.crevices, shell.spots)
    bridged_ml = fsum(place.volume_ml for place in coated.crevices)
    told_ml = fsum(spot.volume_ml for spot in spots if spot.kind is SpotKind.CREVICE)
    return GloveMeasures(
        coated.coat_ml, coated.flange_ml, fill_ml, spots, coated.crevice_ml - bridged_ml + told_ml, coated.slopes
    )


def _shell(shell: BuiltShell, coated: CoatedBody, settings: ShellSettings, lip: LipPlan) -> ShellMeasures:
    volume_ml = sum(piece.mesh.volume_ml for piece in shell.pieces)
    bare = shell_measures(shell.gloved, coated, volume_ml, shell.edges_mm, shell.shares, settings)
    known = replace(bare, pushes=shell.pushes, bands=shell.bands, fasteners=shell.fasteners)
    return replace(known, lip=lip, in_order=shell.in_order)


def shell_measures(
    gloved: Mesh,
    coated: CoatedBody,
    volume_ml: float | None,
    edges_mm: tuple[float, ...],
    shares: tuple[float, ...],
    s: ShellSettings,
) -> ShellMeasures:
    """What a shell measures.

    Parameters
    ----------
    gloved : what it covers.
    coated : on whose flange it stands.
    volume_ml : its own; None where it is not built: its wall and flanges by their area.
    edges_mm, shares : of each piece, see `ShellMeasures`.
    s : its dimensions.
    """
    area_mm2 = without_base(gloved).area_mm2 + ring_length_mm(coated.outline) * s.base_lip_mm
    flange_mm = s.seam_flange_mm if s.seam is Seam.WALL else 0.0
    walls = walls_mm2(area_mm2, fsum(edges_mm), flange_mm)
    return ShellMeasures(
        area_mm2=area_mm2,
        volume_ml=walls * s.wall_mm / 1000.0 if volume_ml is None else volume_ml,
        seam=s.seam,
        edges_mm=edges_mm,
        seam_flange_mm=flange_mm,
        lap_mm=s.lap_mm if s.seam is Seam.LAP else 0.0,
        base_lip_mm=s.base_lip_mm,
        shares=shares,
    )
