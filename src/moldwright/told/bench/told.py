"""A run for a screen: as it stands, and as it comes if every press goes right."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from itertools import chain

from moldwright.bench.run import RunFold
from moldwright.log.codes import short_code
from moldwright.log.event import Event
from moldwright.log.ids import RunId
from moldwright.log.run_events import Mishap, Started
from moldwright.log.standing import struck
from moldwright.plan.ids import StepId
from moldwright.records.runs.ahead import MOST, ShelfNow, ahead
from moldwright.records.runs.doing.strike import strikes_next
from moldwright.records.runs.mark import mark_of
from moldwright.records.runs.opened import OpenRun, opened_with_fold
from moldwright.records.runs.place import BenchPlace
from moldwright.records.shop import Shop
from moldwright.records.stock.shelf import on_shelf
from moldwright.records.told import day_of
from moldwright.text.harmless import harmless
from moldwright.told.bench.entry_words import said_of
from moldwright.told.bench.line import ScreenLine
from moldwright.told.bench.screen_words import ScreenWords, screen_words
from moldwright.told.bench.view import AheadShown, BenchTold, BenchView, FoundShown
from moldwright.told.bench.view_press import EntryShown, StrikeShown
from moldwright.told.bench.view_step import SheetOf, StepShown
from moldwright.told.bench.when import Moments
from moldwright.units import show_scale_step

PRESSES, OVERS, TURNS = 60, 12, 0
"""So many presses are told ahead, of so many parts what to do with too much, and of so many screens what follows where
the work turns aside; our own."""
LAST = 12
"""Entries of the log that are told; our own."""
NOWHERE_YET = BenchPlace()


def bench_told(
    shop: Shop,
    run: RunId,
    now_ms: int,
    place: BenchPlace = NOWHERE_YET,
    presses: int = PRESSES,
    overs: int = OVERS,
    turns: int = TURNS,
) -> tuple[OpenRun, BenchTold]:
    """A run, and what a screen shows of it whoever looks: what Strike out takes is the device's (`strikes_shown`).

    Parameters
    ----------
    shop : the store.
    run : which.
    now_ms : the moment.
    place : where the screen is.
    presses : so many are told ahead, 0 for none, `records.runs.ahead.MOST` at the most.
    overs : of so many parts of them it is told what to do with too much.
    turns : of so many screens it is told what follows where the work turns aside.

    Raises as `records.runs.opened.open_run`.
    """
    open_, fold = opened_with_fold(shop, run, shop.events_of(run), now_ms)
    today = day_of(now_ms).isoformat()
    shelf = ShelfNow(on_shelf(shop, today), today)
    return open_, told_of_run(fold, open_, shelf, place, presses, overs, turns)


def told_of_run(
    fold: RunFold,
    run: OpenRun,
    shelf: ShelfNow,
    place: BenchPlace = NOWHERE_YET,
    presses: int = PRESSES,
    overs: int = OVERS,
    turns: int = TURNS,
) -> BenchTold:
    """What is told of a run that is open.

    Parameters
    ----------
    fold : of the run's plan.
    run : as it stands.
    shelf : the shop's lots.
    place, presses, overs, turns : as `bench_told`.
    """
    words = screen_words(run.plan)
    stands = ahead(fold, run, place, shelf, min(max(presses, 0), MOST) + 1)
    shown = first, *rest = tuple(ScreenLine(words, fold, overs, turns).shown(stands))
    started, frame = run.state.frame.started, run.state.frame
    return BenchTold(
        run=run.id,
        code=short_code(run.id),
        piece=harmless(run.plan.name if started is None else started.name),
        plan=frame.plan,
        mark=mark_of(run.events),
        now_ms=run.state.now_ms,
        units=run.plan.units.value,
        scale_step=show_scale_step(run.plan.scale_g, run.plan.units),
        casts=run.plan.count if started is None else started.casts,
        view=first.view,
        over=first.over,
        turns=first.turns,
        ahead=tuple(rest),
        steps=_steps(words, shelf, (view.act.step for view in _screens(shown) if view.act is not None)),
        walls=words.walls,
        mishaps=tuple(mishap.value for mishap in Mishap),
        log=tuple(_log(words, run)),
        found=tuple(FoundShown(each.severity.value, words.found(each)) for each in run.state.findings),
    )


def _screens(shown: Iterable[AheadShown]) -> Iterator[BenchView]:
    for each in shown:
        yield each.view
        yield from _screens(chain.from_iterable(each.turns.values()))


def strikes_shown(run: OpenRun, bench: str) -> StrikeShown | None:
    """What Strike out takes; None where it takes nothing.

    Parameters
    ----------
    run : as it stands.
    bench : the name of the device that looks.
    """
    events, words = strikes_next(run, bench, _together(run, bench)), screen_words(run.plan)
    if not events:
        return None
    told = ", ".join(said_of(words, event.body) for event in reversed(events))
    return StrikeShown(tuple(event.id for event in events), told, Moments().event(events[0].at_ms))


def _together(run: OpenRun, bench: str) -> tuple[Event, ...]:
    """What the bench's last press wrote: all that it wrote at one moment."""
    last = strikes_next(run, bench)
    own = (e for e in run.events if e.bench == bench and not isinstance(e.body, Started))
    return tuple(e for e in own if last and e.at_ms == last[0].at_ms)


def _steps(words: ScreenWords, shelf: ShelfNow, steps: Iterable[StepId]) -> Mapping[StepId, StepShown]:
    return {id_: replace(words.shown(id_), sheets=_sheets(words, shelf, id_)) for id_ in dict.fromkeys(steps)}


def _sheets(words: ScreenWords, shelf: ShelfNow, step: StepId) -> tuple[SheetOf, ...]:
    """What a step's cups take, each with the safety data sheets that the shop keeps of its lots; one sheet stands once,
    and where there is none the material stands alone."""
    parts = (part for mix in words.places[step].step.mixes for part in words.plan.mix(mix).parts)
    files: dict[str, str] = {}
    lacks: dict[str, None] = {}
    for stuff, part in {part.stuff: part for part in parts}.items():
        lots = [each.lot for each in shelf.lots if each.lot.stuff.key == stuff]
        there = {lot.sheet: lot.stuff.name or lot.stuff.id for lot in lots if lot.sheet}
        files |= {file: harmless(name) for file, name in there.items() if file is not None}
        if not there:
            lacks |= {words.material(part): None}
    return (*(SheetOf(name, file) for file, name in files.items()), *(SheetOf(name, "") for name in lacks))


def _log(words: ScreenWords, run: OpenRun) -> Iterator[EntryShown]:
    gone, moments = struck(run.events), Moments()
    for event in reversed(run.events[-LAST:]):
        told, at = said_of(words, event.body), moments.event(event.at_ms)
        yield EntryShown(event.id, short_code(event.id), told, harmless(event.by), at, event.id in gone)
