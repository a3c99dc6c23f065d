"""The casts of a piece's runs: what was measured on each against its plan, its number, what went wrong, photos."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from moldwright.log.any_events import Attached
from moldwright.log.codes import short_code
from moldwright.log.event import Event
from moldwright.log.ids import FileHash, RunId
from moldwright.log.run_events import CastMeasured, Problem
from moldwright.log.standing import standing
from moldwright.plan.plan import Plan
from moldwright.plan.steps import Per, Phase
from moldwright.ranges import Range
from moldwright.records.molds.casts import drawn_casts, measured_of
from moldwright.records.runs.opened import OpenRun
from moldwright.records.shop import Shop
from moldwright.records.told import day_of
from moldwright.told.csv_text import Cell
from moldwright.told.run_print import numbers_of
from moldwright.words.marked import words
from moldwright.words.speaker import say

CAST_HEADS = ("run", "cast", "out", "mass_g", "height_mm", "number", "problems")
LIGHT, HEAVY = words("lighter than planned"), words("heavier than planned")
SHORT, TALL = words("shorter than planned"), words("taller than planned")


@dataclass(frozen=True, slots=True)
class CastAims:
    """What a plan expects of a cast: its mass [g] and its height [mm]."""

    mass_g: Range
    height_mm: Range


@dataclass(frozen=True, slots=True)
class CastRow:
    """A cast of which something is written.

    Parameters
    ----------
    run, name, turn : which run's, and which of it.
    aims : what its plan expects.
    out_ms : when it came out of the mold [ms], None: not yet, or nobody wrote it.
    mass_g, height_mm : as measured last.
    number : of the edition, "" for none.
    problems : what went wrong with it, in words.
    photos : kept files of it, with what they show.
    """

    run: RunId
    name: str
    turn: int
    aims: CastAims
    out_ms: int | None
    mass_g: float | None
    height_mm: float | None
    number: str
    problems: tuple[str, ...]
    photos: tuple[tuple[FileHash, str], ...]

    @property
    def mass_told(self) -> str:
        """How its mass lies to the plan's range; "" within it, or where it was not measured."""
        return _beside(self.mass_g, self.aims.mass_g, say(LIGHT), say(HEAVY))

    @property
    def height_told(self) -> str:
        """The same of its height."""
        return _beside(self.height_mm, self.aims.height_mm, say(SHORT), say(TALL))


def cast_aims(plan: Plan) -> CastAims:
    """What a plan expects of a cast.

    Parameters
    ----------
    plan : the plan.
    """
    high, shrink = plan.original.height_mm, plan.cast.shrinkage_mm
    return CastAims(plan.cast.mass_g, Range(high - shrink.high, high - shrink.likely, high - shrink.low))


def cast_rows(shop: Shop, runs: Sequence[OpenRun]) -> tuple[CastRow, ...]:
    """The casts of some runs of which something is written, in the runs' order.

    Parameters
    ----------
    shop : the store.
    runs : as they stand.
    """
    return tuple(row for run in runs for row in _rows(run, numbers_of(shop, run)))


def _rows(run: OpenRun, numbers: Mapping[int, str]) -> Iterator[CastRow]:
    stands, started = standing(run.events), run.state.frame.started
    out = frozenset(s.id for s in run.plan.steps if s.per is Per.CAST and s.phase is Phase.OUT_OF_MOLD)
    drawn = {cast.turn: cast.at_ms for cast in drawn_casts(run.events, out)}
    bodies = [event.body for event in stands]
    told = {turn for event in stands if (turn := _turn(event))}
    for turn in sorted({*drawn, *told, *numbers}):
        mass_g, height_mm = measured_of(stands, turn)
        yield CastRow(
            run=run.id,
            name=started.name if started else run.plan.name,
            turn=turn,
            aims=cast_aims(run.plan),
            out_ms=drawn.get(turn),
            mass_g=mass_g,
            height_mm=height_mm,
            number=numbers.get(turn, ""),
            problems=tuple(_problem(body) for body in bodies if isinstance(body, Problem) and body.turn == turn),
            photos=tuple((body.file, body.text) for body in bodies if isinstance(body, Attached) and body.turn == turn),
        )


def _turn(event: Event) -> int:
    body = event.body
    return body.turn if isinstance(body, CastMeasured | Problem | Attached) else 0


def _problem(body: Problem) -> str:
    return f"{say(body.what)}{f', {body.text}' if body.text else ''}"


def _beside(value: float | None, wanted: Range, below: str, above: str) -> str:
    if value is None or wanted.low <= value <= wanted.high:
        return ""
    return below if value < wanted.low else above


def cast_cells(row: CastRow) -> Sequence[Cell]:
    """A cast under `CAST_HEADS`.

    Parameters
    ----------
    row : it.
    """
    out = "" if row.out_ms is None else day_of(row.out_ms).isoformat()
    problems = "; ".join(row.problems)
    return (short_code(row.run), row.turn, out, row.mass_g, row.height_mm, row.number, problems)
