"""What the solids measure, as the numbers that quantities are reckoned from."""

from __future__ import annotations

from moldwright.geometry.field import base_area_mm2, without_base
from moldwright.geometry.outline import ring_area_mm2, ring_length_mm
from moldwright.job.solids import Solids
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.spots import spots_of
from moldwright.mold.volumes import MoldVolumes


def volumes_of(solids: Solids, shell: ShellSettings) -> MoldVolumes:
    """Volumes, areas and lengths of a job's solids.

    Parameters
    ----------
    solids : the finished solids.
    shell : the shell's dimensions.
    """
    body, coated, built = solids.mounted.body, solids.coated, solids.shell
    original = solids.mounted.original
    low, high = solids.settled.standing.mesh.bounds_mm
    fill_ml = solids.glove.volume_ml - sum(coated.coat_ml) - coated.flange_ml
    return MoldVolumes(
        coat_ml=coated.coat_ml,
        flange_ml=coated.flange_ml,
        fill_ml=fill_ml,
        glove_ml=solids.glove.volume_ml,
        spots=spots_of(built.spots, coated.crevice_ml, solids.settled.standing.mesh, coated.flange_mm),
        original_ml=original.volume_ml,
        original_area_mm2=without_base(original).area_mm2,
        plinth_ml=solids.mounted.plinth.volume_ml if solids.mounted.plinth else 0.0,
        plinth_height_mm=solids.mounted.plinth_height_mm,
        cavity_ml=body.volume_ml,
        cavity_area_mm2=without_base(body).area_mm2,
        mouth_area_mm2=solids.mounted.mouth.area_mm2,
        flange_area_mm2=ring_area_mm2(coated.outline) - base_area_mm2(body),
        shell_area_mm2=without_base(built.gloved).area_mm2 + ring_length_mm(coated.outline) * shell.base_lip_mm,
        shell_ml=sum(piece.mesh.volume_ml for piece in built.pieces),
        seam_mm=built.seam_mm,
        seam_flange_mm=shell.seam_flange_mm,
        base_lip_mm=shell.base_lip_mm,
        height_mm=float(high[2] - low[2]),
        widest_mm=float((high - low)[:2].max()),
        handles=len(solids.gaps.handles),
        skin_ml=solids.skin.whole_ml,
        skin_kept_ml=solids.skin.kept_ml,
    )
