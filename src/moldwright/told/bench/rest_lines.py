"""What the rest of some materials still covers, in sentences."""

from __future__ import annotations

from collections.abc import Iterator

from moldwright.mixing.correct import CAUTIONS_HOLD
from moldwright.records.runs.rests import Covered
from moldwright.sheets.bench_words import BenchWords
from moldwright.sheets.rest_words import cover_lines
from moldwright.text.harmless import harmless


def rest_lines(words: BenchWords, found: Covered) -> Iterator[str]:
    """What there is, then work by work what it covers.

    Parameters
    ----------
    words : of the run's plan.
    found : what there is, and what it covers.
    """
    told = " and ".join(f"{words.mass(rest.mass_g)} of {harmless(rest.name)}" for rest in found.rests)
    yield f"With {told}:"
    if not found.works:
        yield "  nothing more is to be mixed."
    yield from (f"  {line}" for line in cover_lines(words, found.works))
    if any(not work.whole for work in found.works):
        yield f"Of such a cup: {CAUTIONS_HOLD}"
