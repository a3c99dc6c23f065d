"""A piece's runs and plan as its pages need them: opened, in the units of who reads."""

from __future__ import annotations

from dataclasses import replace

from moldwright.errors import InputRefused
from moldwright.log.ids import RunId
from moldwright.plan.plan import Plan
from moldwright.records.clock import now_ms
from moldwright.records.runs.opened import OpenRun, find_run, open_run
from moldwright.records.shop import Shop
from moldwright.text.shown import short
from moldwright.units.system import UnitSystem
from moldwright.web.of_piece import OfPiece


def open_runs(shop: Shop, of: OfPiece) -> tuple[OpenRun, ...]:
    """Its runs, the latest first.

    Parameters
    ----------
    shop : the store.
    of : the piece.
    """
    return tuple(open_run(shop, run.id, now_ms()) for run in reversed(of.known.runs))


def run_of(of: OfPiece, shop: Shop, written: str) -> RunId:
    """One of its runs by code or id.

    Parameters
    ----------
    of : the piece.
    shop : the store.
    written : as an address tells it.

    Raises InputRefused ("not-kept", "code-of-several").
    """
    run = find_run(shop, written)
    if run not in {each.id for each in of.known.runs}:
        raise InputRefused("not-kept", short(written), "a run of this piece", "", "Go to the piece's log.")
    return run


def latest_plan(shop: Shop, of: OfPiece, units: UnitSystem) -> Plan | None:
    """Its latest plan in the reader's units; None where it is not planned.

    Parameters
    ----------
    shop : the store.
    of : the piece.
    units : the reader's.
    """
    planned = of.piece.plan
    return None if planned is None else replace(shop.plan(planned.plan), units=units)


def in_units(run: OpenRun, units: UnitSystem) -> OpenRun:
    """A run whose plan tells its figures in the reader's units.

    Parameters
    ----------
    run : as it stands.
    units : the reader's.
    """
    return replace(run, plan=replace(run.plan, units=units))
