"""One line per figure: what was measured, the limit it is held against, and their ratio."""

from __future__ import annotations


def line(what: str, measured: float, limit: float, unit: str) -> bool:
    """Print `what`, its ratio to the limit and whether the limit is kept."""
    kept = measured <= limit
    verdict = "kept" if kept else "MISSED"
    print(
        f"{what:<52} {measured:9.2f} {unit:<6} limit {limit:8.2f}  ratio {measured / limit:5.2f}  {verdict}", flush=True
    )
    return kept
