"""Casts that may still get a number: of the runs of an edition, and of those that are for none."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from moldwright.log.ids import EditionId, RunId
from moldwright.records.editions.read import editions
from moldwright.records.runs.listing import RunRow, runs
from moldwright.records.shop import Shop

MOST = 200
"""So many are told at the most, those of the latest runs first; our own."""


@dataclass(frozen=True, slots=True)
class OpenCast:
    """A cast without a number: `name` of its run, `turn` in it."""

    run: RunId
    name: str
    turn: int


def open_casts(shop: Shop, id_: EditionId) -> tuple[OpenCast, ...]:
    """Casts of runs for an edition, or for none, that have no number yet; whether they came out well nobody asks here.

    Parameters
    ----------
    shop : the store.
    id_ : the edition.
    """
    given = {(each.run, each.turn) for of in editions(shop) for each in of.pieces if not each.void}
    found = [cast for run in runs(shop) if run.started.edition in (id_, None) for cast in _casts(run)]
    return tuple([cast for cast in found if (cast.run, cast.turn) not in given][:MOST])


def _casts(run: RunRow) -> Iterator[OpenCast]:
    yield from (OpenCast(run.id, run.started.name, turn) for turn in range(1, run.started.casts + 1))
