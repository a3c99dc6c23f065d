"""The bench's answers on materials that run out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from moldwright.desk.bench_session import BenchSession
from moldwright.desk.say import say, say_json
from moldwright.errors import InputRefused
from moldwright.plan.json_text import tree_of
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.rests import covered
from moldwright.sheets.bench_words import BenchWords
from moldwright.told.bench.rest_lines import rest_lines


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
    for line in rest_lines(BenchWords(run.plan), found):
        say(line)


def rests(session: BenchSession, rest: str) -> Iterator[str]:
    """What a rest still covers, at the bench.

    Parameters
    ----------
    session : at the bench.
    rest : "B 180".
    """
    if not rest:
        raise InputRefused("rest-unclear", "nothing", "a part and a mass", "", "w B 180: what 180 g of B still cover.")
    yield from rest_lines(session.words, covered(session.run, [rest]))
