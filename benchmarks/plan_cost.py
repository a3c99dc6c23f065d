"""CPU and memory of a whole plan, 160 mm tall at 1 mm, from 200,000 and from 1 M triangles, as a process of its own.

The first, smaller plan compiles what is compiled at run time and is not counted.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
from pathlib import Path

from benchmarks.originals import otter_of
from benchmarks.report import line
from moldwright.sheets.model_files import write_stl

COMMISSION = '[original]\nfile = "otter.stl"\nheight = "160 mm"\nup = "+z"\n[edition]\ncount = 12\n[mold]\npieces = 2\n'
COMMAND = [sys.executable, "-c", "from moldwright.desk.main import main; main()", "plan"]
LIMITS = {200_000: (60.0, 1.5), 1_000_000: (80.0, 2.0)}
GIB = 1024.0**3
RSS_UNIT = 1 if sys.platform == "darwin" else 1024


def run() -> bool:
    with tempfile.TemporaryDirectory() as folder:
        spend(Path(folder) / "warm", 60_000)
        kept = [one(Path(folder) / str(n), n, *limit) for n, limit in LIMITS.items()]
        return all(kept)


def one(folder: Path, triangles: int, cpu_limit_s: float, memory_limit_gib: float) -> bool:
    cpu_s, memory_gib = spend(folder, triangles)
    cpu = line(f"plan of {triangles:,} triangles, CPU", cpu_s, cpu_limit_s, "s")
    return line(f"plan of {triangles:,} triangles, peak memory", memory_gib, memory_limit_gib, "GiB") and cpu


def spend(folder: Path, triangles: int) -> tuple[float, float]:
    """CPU [s] and the peak memory [GiB] of planning in a child process, its own children's CPU counted."""
    folder.mkdir()
    write_stl(otter_of(triangles), folder / "otter.stl")
    (folder / "commission.toml").write_text(COMMISSION, encoding="utf-8")
    call = [*COMMAND, str(folder / "commission.toml"), "--out", str(folder / "plan"), "--no-cache", "--quiet"]
    child = subprocess.Popen(call, stdout=subprocess.DEVNULL)
    _, status, usage = os.wait4(child.pid, 0)
    child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode != 0:
        sys.exit(f"the plan of {triangles:,} triangles ended with exit code {child.returncode}")
    return cpu_of(usage), usage.ru_maxrss * RSS_UNIT / GIB


def cpu_of(usage: resource.struct_rusage) -> float:
    return usage.ru_utime + usage.ru_stime
