"""The runs under way in short: what each asks for next and what runs in it; for Today and for a screen on the wall."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from moldwright.errors import MoldwrightError
from moldwright.log.codes import short_code
from moldwright.log.ids import RunId
from moldwright.records.runs.ahead import ShelfNow
from moldwright.records.runs.listing import RunRow
from moldwright.records.runs.next_act import Press
from moldwright.records.runs.opened import opened_with_fold
from moldwright.records.shop import Shop
from moldwright.records.stock.shelf import on_shelf
from moldwright.records.told import day_of
from moldwright.text.harmless import harmless
from moldwright.told.bench.screen import PRESSES
from moldwright.told.bench.told import told_of_run
from moldwright.told.bench.view import BenchTold, CupClockShown, FoundShown, WaitShown, WindowShown


@dataclass(frozen=True, slots=True)
class RunsOf:
    """What runs in a run, as a screen counts it."""

    clocks: tuple[CupClockShown, ...] = ()
    windows: tuple[WindowShown, ...] = ()
    waits: tuple[WaitShown, ...] = ()


@dataclass(frozen=True, slots=True)
class RunNow:
    """A run under way.

    Parameters
    ----------
    run, code, piece : which, and of what.
    done : so many steps are done.
    say : what is next, with its figure.
    step, title : the step in hand as it is printed, 0 and "" while none is.
    turn, casts : of which cast of how many it is, 0 where it is of none.
    waits : nothing may be done now.
    runs : its clocks.
    found : what is wrong or doubtful in its log.
    refused : why it cannot be opened.
    """

    run: RunId
    code: str
    piece: str
    done: int
    say: str = ""
    step: int = 0
    title: str = ""
    turn: int = 0
    casts: int = 0
    waits: bool = False
    runs: RunsOf = RunsOf()
    found: tuple[FoundShown, ...] = ()
    refused: MoldwrightError | None = None

    @property
    def by_ms(self) -> float:
        """By when something is to be done in it, infinite where nothing presses."""
        clocks = [clock.out_by.ms for clock in self.runs.clocks]
        windows = [window.closes.likely.ms for window in self.runs.windows]
        return min((*clocks, *windows), default=math.inf)


def runs_now(shop: Shop, rows: Iterable[RunRow], now_ms: int) -> tuple[RunNow, ...]:
    """Runs under way, what presses most first.

    Parameters
    ----------
    shop : the store.
    rows : of its list.
    now_ms : the moment.
    """
    today = day_of(now_ms).isoformat()
    shelf = ShelfNow(on_shelf(shop, today), today)
    found = (_run_now(shop, row, shelf, now_ms) for row in rows)
    return tuple(sorted(found, key=lambda run: (run.waits, run.by_ms)))


def _run_now(shop: Shop, row: RunRow, shelf: ShelfNow, now_ms: int) -> RunNow:
    code, piece = short_code(row.id), harmless(row.started.name)
    try:
        run, fold = opened_with_fold(shop, row.id, shop.events_of(row.id), now_ms)
        told = told_of_run(fold, run, shelf, presses=0, overs=0)
    except MoldwrightError as refused:
        return RunNow(row.id, code, piece, row.done, refused=refused)
    return _told(told, row.done)


def _told(told: BenchTold, done: int) -> RunNow:
    view = told.view
    act, figure = view.act, view.figure
    return RunNow(
        run=told.run,
        code=told.code,
        piece=told.piece,
        done=done,
        say=view.say if figure is None else f"{view.say} {figure.text} {figure.unit}",
        step=0 if act is None else act.number,
        title="" if act is None else told.steps[act.step].title,
        turn=0 if act is None else act.turn,
        casts=0 if act is None else act.casts,
        waits=view.press == PRESSES[Press.WAIT],
        runs=RunsOf(view.clocks, view.windows, view.waits),
        found=told.found,
    )
