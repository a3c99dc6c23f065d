"""What the rest of some materials still covers, in sentences."""

from __future__ import annotations

from collections.abc import Iterator

from moldwright.mixing.correct import CAUTIONS_HOLD
from moldwright.records.runs.rests import Covered
from moldwright.sheets.bench_words import BenchWords
from moldwright.sheets.rest_words import cover_lines
from moldwright.text.harmless import harmless
from moldwright.words.speaker import say


def rest_lines(words: BenchWords, found: Covered) -> Iterator[str]:
    """What there is, then work by work what it covers.

    Parameters
    ----------
    words : of the run's plan.
    found : what there is, and what it covers.
    """
    told = say(" and ").join(
        say("{mass} of {name}", mass=words.mass(rest.mass_g), name=harmless(rest.name)) for rest in found.rests
    )
    yield say("With {told}:", told=told)
    if not found.works:
        yield "  nothing more is to be mixed."
    yield from (f"  {line}" for line in cover_lines(words, found.works))
    if any(not work.whole for work in found.works):
        yield say("Of such a cup: {cautions}", cautions=say(CAUTIONS_HOLD))
