"""Fuzzing by hand: `python -m tests.fuzz.scans --count 10000`. What it shares with the tests lies in their folders."""

import sys
from pathlib import Path

sys.path[:0] = [str(Path(__file__).parents[1] / "unit")]
