"""Fuzzing by hand: `python -m tests.fuzz.scans --count 10000`."""
