"""What the solids measure, as the numbers that quantities are reckoned from, and the seam as a table."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from moldwright.geometry.field import without_base
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.rays import hit_distances
from moldwright.job.solids_chain import Solids
from moldwright.mold.blank import ShellSettings
from moldwright.mold.volumes import FillSpot, MoldVolumes
from moldwright.plan.plan import SeamHeight

SEAM_STEP_DEG = 15
SEAM_REACH_DEG = 3.0
LEAST_SPOT_ML = 0.1


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
        spots=spots_of(solids),
        original_ml=original.volume_ml,
        original_area_mm2=without_base(original).area_mm2,
        plinth_ml=solids.mounted.plinth.volume_ml if solids.mounted.plinth else 0.0,
        plinth_height_mm=solids.mounted.plinth_height_mm,
        cavity_ml=body.volume_ml,
        cavity_area_mm2=without_base(body).area_mm2,
        mouth_area_mm2=solids.mounted.mouth.area_mm2,
        flange_area_mm2=_outline_area(coated.outline) - _base_area(body),
        shell_area_mm2=without_base(built.gloved).area_mm2 + _perimeter(coated.outline) * shell.base_lip_mm,
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


def spots_of(solids: Solids) -> tuple[FillSpot, ...]:
    """The packed places of at least 0.1 ml, largest first, and the bridged crevices as one more.

    Parameters
    ----------
    solids : the finished solids.
    """
    spots = [_spot(spot, solids.coated.gloved) for spot in solids.shell.spots if spot.volume_ml >= LEAST_SPOT_ML]
    crevice_ml = solids.coated.crevice_ml
    if crevice_ml >= LEAST_SPOT_ML:
        low, high = solids.settled.standing.mesh.bounds_mm
        middle = (low + high) / 2
        at = (float(middle[0]), float(middle[1]), float(middle[2]))
        spots.append(FillSpot(at, 0.75 * solids.coated.flange_mm, crevice_ml, "crevice"))
    return tuple(spots)


def _spot(spot: Mesh, core: Mesh) -> FillSpot:
    """Where a packed place lies and how deep: the thickness of rubber under its outer surface, by rays inward."""
    middle = spot.vertices.mean(axis=0)
    corners = spot.corners
    normal = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    centers = corners.mean(axis=1)
    depth = max(_depth(spot, centers, normal), 3 * spot.volume_mm3 / max(spot.area_mm2, 1e-9))
    return FillSpot((float(middle[0]), float(middle[1]), float(middle[2])), depth, spot.volume_ml, "undercut")


def _depth(spot: Mesh, centers: NDArray[np.float64], normals: NDArray[np.float64]) -> float:
    """Greatest thickness of a body seen from the largest of its faces, straight inward [mm]."""
    size = np.linalg.norm(normals, axis=1)
    largest = np.argsort(-size)[:24]
    inward = -normals[largest] / np.maximum(size[largest], 1e-12)[:, None]
    reach = hit_distances(spot, centers[largest] + 1e-3 * inward, inward)
    return float(max(reach[reach < 1e6], default=0.0))


def _outline_area(outline: NDArray[np.float64]) -> float:
    x, y = outline[:, 0], outline[:, 1]
    return float(abs(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y)) / 2)


def _perimeter(outline: NDArray[np.float64]) -> float:
    return float(np.linalg.norm(outline - np.roll(outline, -1, axis=0), axis=1).sum())


def _base_area(body: Mesh) -> float:
    return body.area_mm2 - without_base(body).area_mm2


def seam_table(points: NDArray[np.float64]) -> tuple[SeamHeight, ...]:
    """The seam's greatest height over the board every 15 degrees round the upright through the foot's middle.

    Parameters
    ----------
    points : (n, 3) points of the seam on the rubber [mm].
    """
    angle = np.degrees(np.arctan2(points[:, 1], points[:, 0])) % 360
    rows = []
    for at in range(0, 360, SEAM_STEP_DEG):
        near = np.abs((angle - at + 180) % 360 - 180) <= SEAM_REACH_DEG
        rows.append(SeamHeight(float(at), round(float(points[near, 2].max()), 1) if near.any() else None))
    return tuple(rows)
