"""From an order to a plan's folder, written whole or not at all."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from moldwright.job.planning import make_plan
from moldwright.making.files.known import write_known
from moldwright.making.files.plan import write_plan
from moldwright.making.files.rough import rough_into
from moldwright.making.folder import whole_folder
from moldwright.making.order import Order
from moldwright.making.original import has_form, original_of
from moldwright.making.refused import shown_where_refused
from moldwright.plan.plan import Plan
from moldwright.plan.rough import RoughPlan
from moldwright.progress import Progress
from moldwright.store.memory import Store


def plan_folder(order: Order, out: Path, store: Store, progress: Progress) -> Plan | RoughPlan:
    """Plan an order into a folder; where water or weight alone tell the original, its quantities alone.

    Parameters
    ----------
    order : the commission and what it names.
    out : the plan's folder: new, empty, or an earlier plan's, whose place is taken when all is written.
    store : where stages are kept.
    progress : told the stages.

    What is refused for a place of the piece has a picture of it beside `out` (`making.refused`).
    """
    with shown_where_refused(out, order.commission.shop.units), whole_folder(out, order.inputs) as folder:
        if not has_form(order.commission.original):
            return rough_into(folder, order, progress)
        return plan_into(folder, order, store, progress)


def plan_into(folder: Path, order: Order, store: Store, progress: Progress) -> Plan:
    """Plan an order and write all its files.

    Parameters
    ----------
    folder : an empty folder.
    order : the commission and what it names.
    store : where stages are kept.
    progress : told the stages.
    """
    taken = original_of(order, store, progress)
    commission = replace(order.commission, original=taken.order)
    planned = make_plan(commission, taken.scan, order.library, store, progress, order.own_steps, taken.known)
    write_plan(planned, store, folder, progress)
    write_known(taken, planned.plan, folder)
    return planned.plan
