"""A whole trial: photos of a body, reconstructed, and what came out against the truth."""

from __future__ import annotations

import os
import pickle
import resource
import subprocess
import sys
from dataclasses import asdict, dataclass
from pathlib import Path

import numpy as np
import trimesh
from tests.photo_sets.compared import distances_mm, laid_ml, overlap, pose_error_px, rubber_mm, surface_of
from tests.photo_sets.person import answers
from tests.photo_sets.truth import Truth, read_truth

from moldwright.photos.outlines.find import find_outline
from moldwright.photos.outlines.outline import Outline
from moldwright.photos.photograph import photograph
from moldwright.photos.photographed import Photographed, PhotosAsked
from moldwright.photos.poses.find import find_poses
from moldwright.photos.reading.read import read_photos
from moldwright.ranges import Range

ROOT = Path(__file__).resolve().parents[2]
PATH = f"{ROOT / 'src'}{os.pathsep}{ROOT}"
"""The child tries the same tree as its parent."""


@dataclass(frozen=True, slots=True)
class Tried:
    """What came of one body. Errors and half-widths in %, `outer` and `seen` the 95th percentile in % of the height.

    `hull` : how much too large the hull is before any correction; `in_...` : whether the true value lies in its range;
    `open_half`, `in_open` : of the volume before the maker answered what is asked about bowls.
    """

    name: str
    height_mm: float
    ml: float
    used: int
    volume: float
    hull: float
    open_half: float
    in_open: bool
    volume_half: float
    in_volume: bool
    area: float
    area_half: float
    in_area: bool
    rubber: float
    rubber_half: float
    in_rubber: bool
    outer: float
    seen: float
    pose_px: float
    pose_most_px: float
    iou: float
    iou_least: float
    cpu_s: float
    peak_mb: float


def tried(truth: Truth, name: str) -> Tried:
    """Reconstruct a set in a process of its own, so that what it costs can be measured, and compare."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    command = [sys.executable, "-m", "tests.photo_sets.trial", str(truth.folder)]
    done = subprocess.run(command, capture_output=True, check=False, cwd=ROOT, env=os.environ | {"PYTHONPATH": PATH})
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    if done.returncode:
        raise RuntimeError(done.stderr.decode()[-2000:])
    found, open_ml, peak_mb = pickle.loads(done.stdout)
    cpu_s = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return _compared(truth, name, found, open_ml, cpu_s, peak_mb)


def _compared(truth: Truth, name: str, found: Photographed, open_ml: Range, cpu_s: float, peak_mb: float) -> Tried:
    body = trimesh.Trimesh(found.mesh.vertices, found.mesh.faces, process=False)
    surface = surface_of(truth)
    off = distances_mm(surface.points, body) / truth.height_mm * 100
    thick = rubber_mm(truth)
    laid, needed = laid_ml(body, thick), laid_ml(truth.body, thick)
    spread, true_ml = found.spread, truth.body.volume / 1000
    rubber = laid * spread.rubber
    rubber = Range(rubber.low, rubber.likely, rubber.high + spread.unseen_ml)
    volume, area = body.volume / 1000 * spread.volume, body.area * spread.area
    poses, ious = _parts(truth)
    return Tried(
        name=name,
        height_mm=round(truth.height_mm),
        ml=round(true_ml, 1),
        used=sum(one.used for one in found.told),
        volume=_off(volume.likely, true_ml),
        hull=_off(found.hull_ml, true_ml),
        open_half=_half(open_ml),
        in_open=_holds(open_ml, true_ml),
        volume_half=_half(volume),
        in_volume=_holds(volume, true_ml),
        area=_off(area.likely, truth.body.area),
        area_half=_half(area),
        in_area=_holds(area, truth.body.area),
        rubber=_off(rubber.likely, needed),
        rubber_half=_half(rubber),
        in_rubber=_holds(rubber, needed),
        outer=round(float(np.percentile(off[surface.outlined], 95)), 2),
        seen=round(float(np.percentile(off[surface.seen], 95)), 2),
        pose_px=round(float(np.median(np.concatenate(poses))), 2),
        pose_most_px=round(max(float(np.median(one)) for one in poses), 2),
        iou=round(float(np.median(ious)), 4),
        iou_least=round(min(ious), 4),
        cpu_s=round(cpu_s, 1),
        peak_mb=round(peak_mb),
    )


def _parts(truth: Truth) -> tuple[list[np.ndarray], list[float]]:
    """Errors of each pose [px] and overlap of each outline, of the photos that the poses keep."""
    errors, ious = [], []
    true = {view.file: view for view in truth.views}
    with read_photos(truth.folder) as photos:
        poses = find_poses(photos)
        by_file = {photo.file: photo for photo in photos}
        for view in poses.views:
            lens, rgb = view.lens, by_file[view.file].rgb()
            told = (lens.focal_px, lens.center_px, lens.k1, lens.k2, lens.width_px)
            errors.append(pose_error_px(truth, true[view.file], view.rotation, view.shift_mm, *told))
            outline = find_outline(rgb, view, poses.sheet, poses.print_scale)
            if isinstance(outline, Outline):
                inside = np.zeros(rgb.shape[:2], bool)
                high, wide = outline.signed.shape
                inside[outline.top_px :, outline.left_px :][:high, :wide] = outline.inside
                ious.append(overlap(inside, truth.mask(true[view.file])))
    return errors, ious


def _off(value: float, true: float) -> float:
    return round((value / true - 1) * 100, 2)


def _half(value: Range) -> float:
    return round((value.high - value.low) / 2 / value.likely * 100, 2)


def _holds(value: Range, true: float) -> bool:
    return bool(value.low <= true <= value.high)


def table(rows: list[Tried]) -> str:
    """All bodies, one in a line."""
    names = list(asdict(rows[0]))
    lines = [names, *([str(asdict(row)[name]) for name in names] for row in rows)]
    wide = [max(len(line[n]) for line in lines) for n in range(len(names))]
    return "\n".join("  ".join(text.rjust(w) for text, w in zip(line, wide, strict=True)) for line in lines)


def main() -> None:
    """In the child: reconstruct a folder, answer what it asks as a person would, and tell by pickle what was found, the
    volume before the answers and the process's peak memory [MB]."""
    folder = Path(sys.argv[1])
    with read_photos(folder) as photos:
        found = photograph(photos, PhotosAsked())
        open_ = found.photos_ml
        if found.asks:
            found = photograph(photos, PhotosAsked(bowls=answers(read_truth(folder).body, found.asks)))
    told = dict(line.split(":", 1) for line in Path("/proc/self/status").read_text().splitlines())
    own_kb = int(told["VmHWM"].split()[0])  # what getrusage tells of itself begins with its parent's
    peak = max(own_kb, resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss) / 1024
    sys.stdout.buffer.write(pickle.dumps((found, open_, peak)))


if __name__ == "__main__":
    main()
