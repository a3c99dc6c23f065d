"""A run's sheets printed again: what they are printed from, gathered from the records."""

from __future__ import annotations

from collections.abc import Mapping

from moldwright.bench.run import RunState
from moldwright.errors import InputRefused
from moldwright.log.ids import LotId
from moldwright.records.editions.read import edition
from moldwright.records.runs.numbered import number_told
from moldwright.records.runs.opened import OpenRun
from moldwright.records.shop import Shop
from moldwright.records.stock.shelf import on_shelf
from moldwright.records.told import day_of
from moldwright.sheets.run.shown import RunShown, run_shown


def run_to_print(shop: Shop, run: OpenRun, at_ms: int) -> RunShown:
    """A run with the names of its lots and the numbers of its casts.

    Parameters
    ----------
    shop : the store.
    run : as it stands.
    at_ms : when it is printed.
    """
    shelves = on_shelf(shop, day_of(at_ms).isoformat())
    lots = {LotId(shelf.lot.id): shelf.lot.number for shelf in shelves if shelf.lot.number}
    return run_shown(run.plan, run.id, run.state, run.events, at_ms, lots, numbers_of(shop, run))


def numbers_of(shop: Shop, run: OpenRun) -> Mapping[int, str]:
    """The edition's number of each cast that has one.

    Parameters
    ----------
    shop : the store.
    run : which.
    """
    started = run.state.frame.started
    if started is None or started.edition is None:
        return {}
    known = edition(shop, started.edition)
    return {piece.turn: number_told(known, piece) for piece in known.pieces if piece.run == run.id and not piece.void}


def refuse_cast(state: RunState, cast: int | None) -> None:
    """Refuse a cast that the run has not.

    Parameters
    ----------
    state : of the run.
    cast : which, None: the mold's sheets.

    Raises InputRefused ("cast-not-in-run").
    """
    casts = max((act.act.turn for act in state.acts), default=0)
    if cast is not None and not 1 <= cast <= casts:
        remedy = "Name a cast of this run, from 1; without --cast the mold's sheets and the log are printed."
        raise InputRefused("cast-not-in-run", cast, casts, "casts", remedy)
