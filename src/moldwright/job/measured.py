"""All numbers of the geometry that a plan shows, reckoned once for a set of solids."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.job.measures import volumes_of
from moldwright.job.solids_chain import Solids
from moldwright.job.told import geometry_cautions, mouth_plan, original_plan
from moldwright.mold.blank import ShellSettings
from moldwright.mold.seam import seam_table
from moldwright.mold.volumes import MoldVolumes
from moldwright.plan.plan import Caution, MouthPlan, OriginalPlan, SeamHeight


@dataclass(frozen=True, slots=True)
class Measured:
    """Volumes, the original, its mouth, the seam's table and what the shape warns of."""

    volumes: MoldVolumes
    original: OriginalPlan
    mouth: MouthPlan
    seam_table: tuple[SeamHeight, ...]
    piece_ml: tuple[float, ...]
    cautions: tuple[Caution, ...]


def measure(watertight: bool, solids: Solids, shell: ShellSettings, units: str) -> Measured:
    """Measure the finished solids.

    Parameters
    ----------
    watertight : whether the file's mesh was closed.
    solids : the finished solids.
    shell : the shell's dimensions.
    units : "metric" or "us", for what is told in words.
    """
    return Measured(
        volumes=volumes_of(solids, shell),
        original=original_plan(watertight, solids),
        mouth=mouth_plan(solids.mounted),
        seam_table=seam_table(solids.shell.seam_points),
        piece_ml=tuple(piece.mesh.volume_ml for piece in solids.shell.pieces),
        cautions=geometry_cautions(solids, units),
    )
