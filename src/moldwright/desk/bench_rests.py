"""The bench's answers on materials that run out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from moldwright.desk.bench_session import BenchSession
from moldwright.desk.say import say, say_json
from moldwright.errors import InputRefused
from moldwright.mixing.correct import CAUTIONS_HOLD
from moldwright.plan.json_text import tree_of
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.rests import Covered, covered
from moldwright.sheets.bench_words import BenchWords
from moldwright.sheets.rest_words import cover_lines
from moldwright.text.harmless import harmless


def rest_told(run: OpenRun, written: Sequence[str], as_json: bool) -> None:
    """Print what the rest of some materials still covers.

    Parameters
    ----------
    run : as it stands.
    written : "B=180 g", each of one material.
    as_json : print one JSON object.
    """
    found = covered(run, written)
    if as_json:
        say_json({"run": run.id, "covered": tree_of(found)})
        return
    for line in _lines(BenchWords(run.plan), found):
        say(line)


def _lines(words: BenchWords, found: Covered) -> Iterator[str]:
    told = " and ".join(f"{words.mass(rest.mass_g)} of {harmless(rest.name)}" for rest in found.rests)
    yield f"With {told}:"
    if not found.works:
        yield "  nothing more is to be mixed."
    yield from (f"  {line}" for line in cover_lines(words, found.works))
    if any(not work.whole for work in found.works):
        yield f"Of such a cup: {CAUTIONS_HOLD}"


def rests(session: BenchSession, rest: str) -> Iterator[str]:
    """What a rest still covers, at the bench.

    Parameters
    ----------
    session : at the bench.
    rest : "B 180".
    """
    if not rest:
        raise InputRefused("rest-unclear", "nothing", "a part and a mass", "", "w B 180: what 180 g of B still cover.")
    yield from _lines(session.words, covered(session.run, [rest]))
