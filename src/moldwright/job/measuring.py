"""Stage: everything that is measured on the finished solids, so that a plan can be reckoned without them."""

from __future__ import annotations

from moldwright.job.measured import Measured, Sampling
from moldwright.job.measures import volumes_of
from moldwright.job.rubbering import Glove
from moldwright.job.solids import Solids
from moldwright.job.standing import Gaps, Settled, shell_step
from moldwright.job.told import geometry_cautions, mouth_plan, original_plan
from moldwright.mold.glove import CoatedBody
from moldwright.mold.mouth import Mounted
from moldwright.mold.seam import seam_table
from moldwright.mold.shell import Shell
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.skin import Skin
from moldwright.plan.plan import PiecePlan, RemovalPlan, ShellPlan
from moldwright.scan.scan import Scan


def measure(
    scan: Scan,
    settled: Settled,
    mounted: Mounted,
    gaps: Gaps,
    skin: Skin,
    coated: CoatedBody,
    shell: Shell,
    glove: Glove,
    settings: ShellSettings,
    units: str,
) -> Measured:
    """Measure the finished solids.

    Parameters
    ----------
    scan : what was read.
    settled, mounted, gaps, skin, coated, shell, glove : the finished solids.
    settings : the shell's dimensions.
    units : "metric" or "us", for what is told in words.
    """
    solids = Solids(settled, mounted, gaps, skin, coated, shell, glove)
    return Measured(
        volumes=volumes_of(solids, settings),
        original=original_plan(scan.watertight, solids),
        mouth=mouth_plan(mounted),
        shell=_shell_plan(shell, settings),
        cautions=geometry_cautions(solids, units),
        said=settled.said,
        sampling=_sampling(solids),
    )


def _sampling(solids: Solids) -> Sampling:
    standing = solids.settled.standing
    shell_mm = shell_step(solids.settled)
    return Sampling(standing.step_mm, standing.error_mm, standing.exact, shell_mm, solids.shell.clearance_mm)


def _shell_plan(shell: Shell, settings: ShellSettings) -> ShellPlan:
    removal = shell.removal
    return ShellPlan(
        pieces=tuple(
            PiecePlan(f"mold/shell-{number}.stl", piece.draw, piece.fill_ml, piece.mesh.volume_ml)
            for number, piece in enumerate(shell.pieces, 1)
        ),
        seam_mm=shell.seam_mm,
        seam_table=seam_table(shell.seam_points),
        thickness_mm=settings.wall_mm,
        removal=RemovalPlan(
            removal.free,
            removal.overlap_mm3,
            removal.offsets,
            removal.rays,
            removal.rays_blocked,
            removal.control_overlap_mm3,
        ),
    )
