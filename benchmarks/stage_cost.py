"""Where the CPU of a plan goes: the time between the stages that long work tells of, in a process of its own."""

from __future__ import annotations

import json
import subprocess
import sys
from itertools import pairwise
from pathlib import Path

PROGRAM = """
import json, resource, sys, tempfile
from pathlib import Path

def spent():
    both = [resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    return sum(usage.ru_utime + usage.ru_stime for usage in both)

rows = [("start and imports", 0.0)]
from moldwright.making.plan import plan_into
from moldwright.making.order import gather
from moldwright.store.memory import NoStore

def progress(stage, fraction):
    if rows[-1][0] != stage:
        rows.append((stage, spent()))

with tempfile.TemporaryDirectory() as folder:
    plan_into(Path(folder), gather(Path(sys.argv[1])), NoStore(), progress)
rows.append(("", spent()))
print(json.dumps(rows))
"""


def stage_table(commission: Path) -> str:
    """Every stage of a plan with its CPU [s] and its share, the largest first."""
    done = subprocess.run([sys.executable, "-c", PROGRAM, str(commission)], capture_output=True, text=True, check=True)
    rows = json.loads(done.stdout.splitlines()[-1])
    spent: dict[str, float] = {}
    for (stage, begin), (_, end) in pairwise(rows):
        spent[stage] = spent.get(stage, 0.0) + end - begin
    whole = sum(spent.values())
    ordered = sorted(spent.items(), key=lambda row: -row[1])
    return "\n".join(f"    {stage:<44} {cpu_s:7.2f} s {100 * cpu_s / whole:5.1f} %" for stage, cpu_s in ordered)
