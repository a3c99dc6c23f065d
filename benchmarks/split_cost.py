"""The search of a shell's split in two, and in one to four, at 3 mm about a body with 126,000 free points.

CPU of the whole process, and its ratio to the yardstick of `plan_cost` in the same run: libigl's signed distance.
"""

from __future__ import annotations

import time

from benchmarks.originals import otter_of
from benchmarks.plan_cost import yardstick_s
from benchmarks.report import line
from moldwright.geometry.mesh import Mesh
from moldwright.mold.space import space_about
from moldwright.mold.split import SplitSettings
from moldwright.mold.split_search import splits_about

TRIANGLES, HEIGHT_MM, SMALL_MM = 60_000, 189.0, 60.0
WIDTH_MM, STEP_MM, LEAST_POINTS = 25.0, 3.0, 126_000
LIMITS_S = {2: 6.0, 4: 30.0}
"""What two pieces may take is asked of us; four: our own."""
MOST_YARDS = {2: 0.7, 4: 3.4}
"""Half as much again as was measured."""


def run() -> bool:
    """Print every figure; whether each keeps its limit."""
    core, yard_s = standing(HEIGHT_MM), yardstick_s(200_000)
    points = int(space_about(core, WIDTH_MM, 0.0, STEP_MM).free.sum())
    print(f"split: {points:,} free points at {STEP_MM} mm, at least {LEAST_POINTS:,}")
    kept = [points >= LEAST_POINTS]
    for most, limit_s in LIMITS_S.items():
        spent(standing(SMALL_MM), most)  # compiled before the clock starts
        cpu_s = spent(core, most)
        kept.append(line(f"split in at most {most}, CPU", cpu_s, limit_s, "s"))
        kept.append(line(f"split in at most {most}, CPU / libigl's distances", cpu_s / yard_s, MOST_YARDS[most], "x"))
    return all(kept)


def standing(height_mm: float) -> Mesh:
    """The otter, so tall."""
    otter = otter_of(TRIANGLES)
    low, high = otter.bounds_mm
    return Mesh(otter.vertices * (height_mm / float(high[2] - low[2])), otter.faces)


def spent(core: Mesh, most: int) -> float:
    """CPU [s] of the search in at most so many pieces."""
    start = time.process_time()
    splits_about(core, WIDTH_MM, 0.0, STEP_MM, SplitSettings(), most=most)
    return time.process_time() - start
