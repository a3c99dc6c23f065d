"""Scans changed by chance, read and placed: `python -m tests.fuzz.scans --count 10000 [--first 0] [--child 300]`.

Each must be placed or refused with a remedy, within 10 s of processor time; what is not is kept in
tests/fuzz/corpus/scans/ and replayed by the ordinary tests.
"""

from __future__ import annotations

import argparse
import signal
import sys
import tempfile
import time
import warnings
from collections import Counter
from pathlib import Path
from types import FrameType

import numpy as np
from tests.fuzz.mutate import mutated

from moldwright.errors import InputRefused, MoldwrightError, NoSafePlan
from moldwright.original.standing.candidates import candidates
from moldwright.original.standing.place import place
from moldwright.scan import Limits, read_with_hash
from moldwright.scan.parse import parse
from moldwright.scan.scan import Scan

CORPUS = Path(__file__).parent / "corpus" / "scans"
LIMITS = Limits(triangles=100_000, archive_bytes=1 << 24)
LONGEST_S = 10
HANGS = ("reading-takes-too-long", "reading-needs-too-much-memory")


class TookTooLong(Exception):
    """One scan took longer than it may."""


def outcome(name: str, data: bytes, seed: int, child: bool = False) -> str:
    """What became of a scan: "placed", or the code of its refusal; any other error is let through."""
    try:
        scan = _through_child(name, data) if child else parse(name, data, LIMITS)
        _place(scan, seed)
    except (InputRefused, NoSafePlan) as error:
        refused: MoldwrightError = error
    else:
        return "placed"
    assert refused.code not in HANGS, refused.code
    assert refused.remedy, f"{refused.code} without a remedy"
    return refused.code


def _through_child(name: str, data: bytes) -> Scan:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / name
        path.write_bytes(data)
        return read_with_hash(path, LIMITS).scan


def _place(scan: Scan, seed: int) -> None:
    assert np.isfinite(scan.mesh.vertices).all()
    assert scan.mesh.faces.max() < len(scan.mesh.vertices)
    up = (None, "+z", "-y", (1.0, 2.0, 3.0))[seed % 4]
    candidates(scan)
    placed = place(scan, None if seed % 3 == 0 else 100.0, "mm" if seed % 3 == 0 else None, up, (None, 5.0)[seed % 2])
    assert np.isfinite(placed.mesh.vertices).all()
    assert placed.mesh.vertices[:, 2].max() > 0


def main() -> int:
    """Run a count of seeds and tell what came of them."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--count", type=int, default=10_000)
    asked.add_argument("--first", type=int, default=0)
    asked.add_argument("--child", type=int, default=0, help="so many of them through the whole reading child")
    given = asked.parse_args()
    signal.signal(signal.SIGPROF, _late)
    warnings.simplefilter("error")
    counts: Counter[str] = Counter()
    slowest = (0.0, 0)
    for seed in range(given.first, given.first + given.count):
        name, data = mutated(seed)
        began = time.process_time()
        signal.setitimer(signal.ITIMER_PROF, LONGEST_S)
        try:
            counts[outcome(name, data, seed, seed < given.first + given.child)] += 1
        except Exception as error:
            counts["FAILED"] += 1
            print(f"seed {seed} {name}: {type(error).__name__}: {error}", flush=True)
            CORPUS.mkdir(parents=True, exist_ok=True)
            (CORPUS / f"{seed}-{name}").write_bytes(data)
        finally:
            signal.setitimer(signal.ITIMER_PROF, 0)
        slowest = max(slowest, (time.process_time() - began, seed))
    print(f"{given.count} scans: " + ", ".join(f"{code} {count}" for code, count in counts.most_common()))
    print(f"slowest {slowest[0]:.2f} s of processor time (seed {slowest[1]}), failed {counts['FAILED']}")
    return 1 if counts["FAILED"] else 0


def _late(_number: int, _frame: FrameType | None) -> None:
    raise TookTooLong(f"over {LONGEST_S} s of processor time")


if __name__ == "__main__":
    sys.exit(main())
