"""CPU and memory of a whole plan, 160 mm tall at 1 mm, from 200,000 and from 1 M triangles, as a process of its own.

The first, smaller plan compiles what is compiled at run time and is not counted. What a second of CPU is worth differs
between machines and with what else runs, so each plan's CPU is also told as a ratio: to a yardstick of the same run,
libigl's signed distance (fast winding number) from the same triangles at a fixed number of points; and, where
MOLDWRIGHT_AGAINST names the `src` folder of another version, to the same plan by that version, taken in turn.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import igl
import numpy as np

from benchmarks.originals import otter_of
from benchmarks.report import line
from benchmarks.stage_cost import stage_table
from moldwright.sheets.model_files import write_stl

COMMISSION = '[original]\nfile = "otter.stl"\nheight = "160 mm"\nup = "+z"\n[edition]\ncount = 12\n[mold]\npieces = 2\n'
COMMAND = [sys.executable, "-c", "from moldwright.desk.main import main; main()", "plan"]
LIMITS = {200_000: (60.0, 1.5), 1_000_000: (80.0, 2.0)}
AGAINST = "MOLDWRIGHT_AGAINST"
YARD_POINTS = 300_000
MOST_YARDS = {200_000: 7.0, 1_000_000: 4.5}
"""A plan costs at most this many yardsticks: half as much again as was measured in quiet, 4.4 to 4.9 and 2.9."""
GIB = 1024.0**3
RSS_UNIT = 1 if sys.platform == "darwin" else 1024


def run() -> bool:
    """Print every figure; whether each keeps its limit."""
    with tempfile.TemporaryDirectory() as folder:
        for number, source in enumerate(("", os.environ.get(AGAINST, ""))):
            spend(Path(folder) / f"warm-{number}", 60_000, source)
        kept = [one(Path(folder), n, *limit) for n, limit in LIMITS.items()]
        return all(kept)


def one(folder: Path, triangles: int, cpu_limit_s: float, memory_limit_gib: float) -> bool:
    cpu_s, memory_gib = spend(folder / str(triangles), triangles)
    name = f"plan of {triangles:,} triangles"
    kept = [
        line(f"{name}, CPU", cpu_s, cpu_limit_s, "s"),
        line(f"{name}, CPU / libigl's distances", cpu_s / yardstick_s(triangles), MOST_YARDS[triangles], "x"),
        line(f"{name}, peak memory", memory_gib, memory_limit_gib, "GiB"),
    ]
    if AGAINST in os.environ:
        theirs_s, _ = spend(folder / f"{triangles}-against", triangles, os.environ[AGAINST])
        kept.append(line(f"{name}, CPU / that of the other version", cpu_s / theirs_s, 1.0, "x"))
    print(stage_table(folder / str(triangles) / "commission.toml"), flush=True)
    return all(kept)


def yardstick_s(triangles: int) -> float:
    """CPU [s] of libigl's signed distance from the same triangles at fixed points about them."""
    original = otter_of(triangles)
    low, high = original.bounds_mm
    points = np.random.default_rng(1).uniform(low - 5.0, high + 5.0, (YARD_POINTS, 3))
    kind = igl.SignedDistanceType.SIGNED_DISTANCE_TYPE_FAST_WINDING_NUMBER
    start = time.process_time()
    igl.signed_distance(points, original.vertices, original.faces.astype(np.int64), kind)
    return time.process_time() - start


def spend(folder: Path, triangles: int, source: str = "") -> tuple[float, float]:
    """CPU [s] and the peak memory [GiB] of planning in a child process, its own children's CPU counted."""
    folder.mkdir()
    write_stl(otter_of(triangles), folder / "otter.stl")
    (folder / "commission.toml").write_text(COMMISSION, encoding="utf-8")
    call = [*COMMAND, str(folder / "commission.toml"), "--out", str(folder / "plan"), "--no-cache", "--quiet"]
    environment = {**os.environ, "PYTHONPATH": source} if source else None
    child = subprocess.Popen(call, stdout=subprocess.DEVNULL, env=environment)
    _, status, usage = os.wait4(child.pid, 0)
    child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode != 0:
        sys.exit(f"the plan of {triangles:,} triangles ended with exit code {child.returncode}")
    return cpu_of(usage), usage.ru_maxrss * RSS_UNIT / GIB


def cpu_of(usage: resource.struct_rusage) -> float:
    """User and system time together [s]."""
    return usage.ru_utime + usage.ru_stime
