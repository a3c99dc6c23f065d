"""What can be written on a run's printed sheets, row by row in their own order."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import Enum

from moldwright.bench.acts import Act
from moldwright.bench.boxes import BoxOf
from moldwright.bench.now import ActNow
from moldwright.log.run_events import CupRef
from moldwright.plan.ids import StepId
from moldwright.plan.mixes import MixPart
from moldwright.records.runs.boxes import SheetBox, boxes_of
from moldwright.records.runs.opened import OpenRun


class RowKind(Enum):
    """What a row of the sheets is for."""

    DATE = 1
    PART = 2
    CUP = 3
    BOX = 4
    TICK = 5
    WAIT = 6


@dataclass(frozen=True, slots=True)
class PaperRow:
    """One row: `number` is the step's as printed; what else it is about, where it is about that.

    `key` tells it apart from all others of the run: "8 part coat-1.cup-1.B", "42/1 tick".
    """

    kind: RowKind
    key: str
    number: int
    act: Act
    cup: CupRef | None = None
    part: MixPart | None = None
    box: SheetBox | None = None


def paper_rows(run: OpenRun) -> tuple[PaperRow, ...]:
    """Every row of a run's sheets: for each step its cups as on the card, its boxes, its tick, its wait; a date before
    the first row of each sheet.

    Parameters
    ----------
    run : which.
    """
    numbers = {step.id: number for number, step in enumerate(run.plan.steps, start=1)}
    return tuple(_rows(run, numbers))


def _rows(run: OpenRun, numbers: Mapping[StepId, int]) -> Iterator[PaperRow]:
    page: object = None
    for act in run.state.acts:
        if (sheet := (act.act.turn, act.step.phase, act.step.coat)) != page:
            page = sheet
            yield _row(RowKind.DATE, act, numbers)
        yield from _of_act(run, act, numbers)


def _of_act(run: OpenRun, act: ActNow, numbers: Mapping[StepId, int]) -> Iterator[PaperRow]:
    for id_ in act.step.mixes:
        cup = CupRef(id_, act.act.turn)
        for part in run.plan.mix(id_).parts:
            yield _row(RowKind.PART, act, numbers, f"{id_}.{part.kind}", cup, part)
        yield _row(RowKind.CUP, act, numbers, id_, cup)
    for box in boxes_of(act.step, act.act.turn):
        if box.kind is not BoxOf.DATE:
            yield _row(RowKind.BOX, act, numbers, box.key, box=box)
    yield _row(RowKind.TICK, act, numbers)
    if act.step.wait_min is not None and not act.step.waits_within and not act.act.turn:
        yield _row(RowKind.WAIT, act, numbers)


def _row(
    kind: RowKind,
    act: ActNow,
    numbers: Mapping[StepId, int],
    of: str = "",
    cup: CupRef | None = None,
    part: MixPart | None = None,
    box: SheetBox | None = None,
) -> PaperRow:
    number, cast = numbers[act.act.step], f"/{act.act.turn}" if act.act.turn else ""
    key = " ".join(filter(None, (f"{number}{cast}", kind.name.lower(), of.replace(" ", "-"))))
    return PaperRow(kind, key, number, act.act, cup, part, box)
