"""Boxes of the sheet: which one is meant, and what is written in it."""

from __future__ import annotations

from moldwright.errors import InputRefused
from moldwright.records.runs.boxes import SheetBox, body_of_box, boxes_of
from moldwright.records.runs.doing.at_run import AtRun
from moldwright.records.runs.next_act import NextAct
from moldwright.records.runs.write import Logged
from moldwright.text.shown import short


def write_box(at: AtRun, box: SheetBox, text: str) -> Logged:
    """Write in a box.

    Parameters
    ----------
    at : the bench.
    box : which.
    text : what stands in it.

    Raises as `records.runs.boxes.body_of_box`.
    """
    return at.write(body_of_box(box, text, at.run.plan.units))


def box_meant(next_: NextAct, written: str) -> tuple[SheetBox, str]:
    """The box of the step in hand that a number in front names, else its first; and what is written in it.

    Parameters
    ----------
    next_ : what is next.
    written : "2 damp", "damp".

    Raises InputRefused ("no-box").
    """
    boxes = boxes_of(next_.act.step, next_.act.act.turn) if next_.act is not None else ()
    head, _, text = written.strip().partition(" ")
    number = int(head) if head.isdecimal() and len(head) < 4 and text and int(head) <= len(boxes) else 0
    if not boxes or not written:
        raise InputRefused(
            "no-box", short(written), "a box of this step", "", "b TEXT writes into the step's first box."
        )
    return boxes[max(number - 1, 0)], text if number else written
