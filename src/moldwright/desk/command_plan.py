"""`moldwright plan`: from a commission's file to a plan's folder."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from moldwright.desk.known_files import write_known
from moldwright.desk.plan_runs import earlier_plan, tell_runs
from moldwright.desk.stage_bars import stages
from moldwright.job.planning import make_plan
from moldwright.making.files.plan import write_plan
from moldwright.making.files.rough import rough_into
from moldwright.making.folder import whole_folder
from moldwright.making.order import Order, gather
from moldwright.making.original import has_form, original_of
from moldwright.making.places import cache_folder
from moldwright.making.store import DiskStore
from moldwright.plan.plan import Plan
from moldwright.plan.rough import RoughPlan
from moldwright.progress import Progress
from moldwright.store.memory import NoStore, Store


def run_plan(
    commission: Path, out: Path, quiet: bool = False, cache: Path | None = None, no_cache: bool = False
) -> Plan | RoughPlan:
    """Plan a commission into a folder; where water or weight alone tell the original, its quantities alone.

    Parameters
    ----------
    commission : the commission's file.
    out : the plan's folder.
    quiet : do not tell the stages.
    cache : where computed stages are kept.
    no_cache : keep nothing.
    """
    order, earlier = gather(commission), earlier_plan(out)
    with stages(quiet) as progress, whole_folder(out, order.inputs) as folder:
        if not has_form(order.commission.original):
            return rough_into(folder, order, progress)
        plan = plan_into(folder, order, store_of(cache, no_cache), progress)
    tell_runs(earlier, out)
    return plan


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


def store_of(cache: Path | None, no_cache: bool) -> Store:
    """The store that the options ask for.

    Parameters
    ----------
    cache : its folder, None for the usual one.
    no_cache : keep nothing.
    """
    return NoStore() if no_cache else DiskStore(cache or cache_folder() / "stages")
