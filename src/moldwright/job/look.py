"""A first look at a scan: how it stands, its mouth, its through-holes, and how undercut it is."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.commission.orders import MoldOrder, OriginalOrder
from moldwright.geometry.mesh import Mesh
from moldwright.job.assumed import stance_assumptions
from moldwright.job.plan_of_solids import holes_of, mouth_plan, repairs_of
from moldwright.job.standing import settle
from moldwright.mold.mouth import MouthLimits, mount
from moldwright.mold.rough_undercuts import rough_undercuts
from moldwright.plan.look import Look
from moldwright.progress import Progress
from moldwright.scan.scan import Scan


@dataclass(frozen=True, slots=True, eq=False)
class Looked:
    """What a look found, and the original as one solid on the board [mm]."""

    found: Look
    mesh: Mesh


def look(scan: Scan, order: OriginalOrder, progress: Progress) -> Looked:
    """Stand the scan on the board and tell what it is, before anything is planned.

    Parameters
    ----------
    scan : what was read.
    order : how it stands and how large it is.
    progress : told the stages.
    """
    progress("stand the original on the board", 0.0)
    settled = settle(scan, order.height_mm, order.unit, order.up, order.board_mm, progress)
    progress("stand the original on the board", 1.0)
    mesh = settled.standing.mesh
    low, high = mesh.bounds_mm
    wide, deep, tall = (round(float(v), 2) for v in high - low)
    progress("look for undercuts", 0.0)
    one, two = rough_undercuts(mesh)
    progress("look for undercuts", 1.0)
    found = Look(
        file=order.file,
        format=scan.format,
        size_mm=(wide, deep, tall),
        triangles=len(scan.mesh.faces),
        bodies=scan.bodies,
        watertight=scan.watertight,
        volume_ml=mesh.volume_ml,
        area_cm2=mesh.area_mm2 / 100,
        mouth=mouth_plan(mount(mesh, MouthLimits())),
        undercut_one_ml=one,
        undercut_two_ml=two,
        holes=holes_of(settled.handles, MoldOrder().thickness_mm),
        repairs=repairs_of(settled),
        said=stance_assumptions(settled.stance),
    )
    return Looked(found, mesh)
