"""Plans that are tried: made as any other, kept beside the piece's own until they are kept or put back."""

from __future__ import annotations

import shutil
from dataclasses import replace

from moldwright import __version__
from moldwright.commission.reading import commission_from_toml
from moldwright.errors import InputRefused, RecordConflict
from moldwright.log.ids import PieceId, PlanId
from moldwright.making.plan_folders import plan_home, planned_folder
from moldwright.making.plans import PLAN_FILE
from moldwright.records.clock import BenchClock
from moldwright.records.pieces.folder import lay_out
from moldwright.records.pieces.write import change, piece_known, planned
from moldwright.records.shop import Shop
from moldwright.web.long_work.job import LongJob, WorkKind, WorkState
from moldwright.web.long_work.queue import WorkQueue
from moldwright.web.settings import Settings


def try_plan(work: WorkQueue, shop: Shop, settings: Settings, id_: PieceId, commission: str, by: str = "") -> LongJob:
    """Ask for a plan of a piece by another commission; one that was tried before is put back.

    Parameters
    ----------
    work : the queue.
    shop : the records.
    settings : where plans' folders are.
    id_ : the piece's.
    commission : what is tried, as TOML.
    by : who asks.

    Raises InputRefused ("not-kept", and those of a commission).
    """
    commission_from_toml(commission)
    piece = piece_known(shop, id_)
    put_back(work, shop, settings, id_)
    tried = replace(piece, commission=commission)
    order = {"asked": piece.asked, "commission": commission}
    return work.ask(WorkKind.TRIAL, piece.name, id_, order, lambda to: lay_out(shop, tried, to, linked=True), by)


def last_trial(work: WorkQueue, id_: PieceId) -> LongJob | None:
    """The plan that is tried for a piece, None where none is.

    Parameters
    ----------
    work : the queue.
    id_ : the piece's.
    """
    mine = (job for job in reversed(work.files.every()) if job.about == id_ and job.kind is WorkKind.TRIAL)
    return next(mine, None)


def put_back(work: WorkQueue, shop: Shop, settings: Settings, id_: PieceId) -> None:
    """Nothing is tried any more, and nothing of it is left; the piece's own plan was never touched.

    Parameters
    ----------
    work : the queue.
    shop : the records.
    settings : where plans' folders are.
    id_ : the piece's.
    """
    while (job := last_trial(work, id_)) is not None:
        ended = work.stop(job.id)
        work.files.drop(job.id)
        if ended.result is not None and not ended.result["rough"]:
            _forget(work, shop, settings, PlanId(ended.result["plan"]))


def _forget(work: WorkQueue, shop: Shop, settings: Settings, plan: PlanId) -> None:
    """A plan's folder goes, but for one that the records hold or that is tried for another piece."""
    tried = any(job.result is not None and job.result.get("plan") == plan for job in work.files.every())
    if not tried and not shop.holds_plan(plan):
        shutil.rmtree(plan_home(settings.data, plan), ignore_errors=True)


def keep_trial(work: WorkQueue, shop: Shop, settings: Settings, clock: BenchClock, id_: PieceId) -> PlanId:
    """What was tried is asked for from now on, and its plan is the piece's.

    Parameters
    ----------
    work : the queue.
    shop : the records.
    settings : where plans' folders are.
    clock : of the bench.
    id_ : the piece's.

    Raises InputRefused ("nothing-tried"), RecordConflict ("piece-changed-meanwhile").
    """
    job = last_trial(work, id_)
    if job is None or job.state is not WorkState.DONE or job.result is None:
        raise InputRefused("nothing-tried", "no plan that is tried", "one that is made", "", "Try a plan first.")
    piece = piece_known(shop, id_)
    if piece.asked != job.order["asked"]:
        remedy = "Look at what is asked for now, and try again."
        raise RecordConflict("piece-changed-meanwhile", piece.name, "as it was when this was tried", "", remedy)
    plan = PlanId(job.result["plan"])
    text = (planned_folder(settings.data, plan) / PLAN_FILE).read_text(encoding="utf-8")
    files = {each.name: each.file for each in piece.files}
    event = change(shop, clock, id_, str(job.order["commission"]), files)
    planned(shop, clock, id_, text, __version__, event.id)
    work.files.drop(job.id)
    return plan
