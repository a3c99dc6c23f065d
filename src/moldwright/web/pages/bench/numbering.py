"""A cast's number: the edition gives it, the step's box has it."""

from __future__ import annotations

from moldwright.bench.boxes import BoxOf
from moldwright.errors import InputRefused
from moldwright.log.edition_events import Series
from moldwright.log.ids import RunId
from moldwright.plan.ids import StepId
from moldwright.records.clock import BenchClock
from moldwright.records.editions.read import edition
from moldwright.records.runs.boxes import SheetBox, boxes_of
from moldwright.records.runs.numbered import edition_of_run, number_cast, number_meant, number_told
from moldwright.records.runs.opened import OpenRun, open_run
from moldwright.records.shop import Shop
from moldwright.text.shown import short

CHOSEN, PROOF = "number-chosen", "number-proof"


def give_to_cast(shop: Shop, clock: BenchClock, run: RunId, act: tuple[StepId, int], which: str, written: str) -> str:
    """Number a cast; gives the number as it stands on the piece.

    Parameters
    ----------
    shop, clock : the store, and the clock of the device.
    run : which.
    act : the step that numbers, and its cast.
    which : the press: the next free number, the one that is written, or a proof's.
    written : that number as typed.

    Raises InputRefused ("no-box") and as `records.runs.numbered.number_cast`.
    """
    open_ = open_run(shop, run, clock.now())
    series, number = Series.PROOF if which == PROOF else Series.NUMBERED, None
    if which == CHOSEN:
        series, number = number_meant(written)
    piece, _ = number_cast(shop, clock, open_, _box(open_, act), series, number)
    return number_told(edition(shop, edition_of_run(open_)), piece)


def _box(run: OpenRun, act: tuple[StepId, int]) -> SheetBox:
    steps = (step for step in run.plan.steps if step.id == act[0])
    boxes = (box for step in steps for box in boxes_of(step, act[1]) if box.kind is BoxOf.NUMBER)
    found = next(boxes, None)
    if found is None:
        told = f"{short(act[0])}, cast {act[1]}"
        raise InputRefused("no-box", told, "a step that numbers a cast", "", "Go on at the step that the bench shows.")
    return found
