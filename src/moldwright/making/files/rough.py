"""Quantities alone as the files of a folder: quantities.json and its sheet, no solid and no template."""

from __future__ import annotations

from pathlib import Path

from moldwright.commission.orders import Paper
from moldwright.making.order import Order
from moldwright.plan.rough import RoughPlan
from moldwright.progress import Progress
from moldwright.sheets.rough_data import rough_sheet
from moldwright.sheets.rough_text import rough_text

JSON, SHEET = "quantities.json", "quantities.pdf"


def rough_into(folder: Path, order: Order, progress: Progress) -> RoughPlan:
    """Reckon the quantities of an order and write them; what reckons them is loaded only now.

    Parameters
    ----------
    folder : an empty folder.
    order : the commission, known by water or weight alone.
    progress : told the stages.
    """
    from moldwright.job.rough import make_rough  # noqa: PLC0415

    progress("reckoning quantities", 0.0)
    plan = make_rough(order.commission, order.library)
    progress("reckoning quantities", 1.0)
    progress("setting sheets", 0.0)
    write_rough(plan, order.commission.shop.paper, folder)
    progress("setting sheets", 1.0)
    return plan


def write_rough(plan: RoughPlan, paper: Paper, folder: Path) -> None:
    """Write quantities.json and quantities.pdf.

    Parameters
    ----------
    plan : the quantities.
    paper : the paper in the printer.
    folder : where to.
    """
    (folder / SHEET).write_bytes(rough_sheet(plan, paper))
    (folder / JSON).write_bytes(rough_text(plan).encode())
