"""What is done with what long work made: a plan goes to the plans, and into the piece's log."""

from __future__ import annotations

import shutil
from dataclasses import replace
from pathlib import Path

from moldwright import __version__
from moldwright.log.ids import EventId, PieceId, PlanId, SubjectId
from moldwright.making.exchange import put_in_place
from moldwright.making.plan_folders import plan_home
from moldwright.making.plans import PLAN_FILE
from moldwright.records.clock import BenchClock
from moldwright.records.pieces.from_files import keep_named
from moldwright.records.pieces.names import COMMISSION
from moldwright.records.pieces.write import piece_known, planned, take_in
from moldwright.records.shop import Shop
from moldwright.web.long_work.files import ASKED
from moldwright.web.long_work.job import LongJob, WorkKind
from moldwright.web.long_work.queue import Settle
from moldwright.web.settings import Settings

ROUGH = "quantities"
"""The folder of those pieces' quantities of which no form is known, by the piece's id."""


def settling(shop: Shop, settings: Settings) -> Settle:
    """What keeps a shop's plans.

    Parameters
    ----------
    shop : its records.
    settings : its folder of this machine.
    """

    def settle(job: LongJob, made: Path) -> LongJob:
        if job.kind is WorkKind.PLAN and job.result is not None:
            if job.result["rough"]:
                put(made, rough_home(settings.data, PieceId(SubjectId(job.about))))
            else:
                _keep(shop, settings, job, made)
        if job.kind is WorkKind.DEMO:
            return _demo(shop, settings, job, made)
        if job.kind is WorkKind.TRIAL and job.result is not None and not job.result["rough"]:
            put(made, plan_home(settings.data, PlanId(job.result["plan"])))
        return job

    return settle


def rough_home(data: Path, piece: PieceId) -> Path:
    """Where the quantities of a piece lie that is known by water or weight alone.

    Parameters
    ----------
    data : the folder of what can be made anew.
    piece : its id, as the records gave it.
    """
    return data / ROUGH / piece


def _keep(shop: Shop, settings: Settings, job: LongJob, made: Path) -> None:
    """The folder first: a plan that the log tells has one."""
    assert job.result is not None
    text = (made / PLAN_FILE).read_text(encoding="utf-8")
    put(made, plan_home(settings.data, PlanId(job.result["plan"])))
    clock = BenchClock(settings.bench, job.by, last_ms=shop.last_ms(settings.bench))
    planned(shop, clock, PieceId(SubjectId(job.about)), text, __version__, EventId(job.order["asked"]))


def _demo(shop: Shop, settings: Settings, job: LongJob, made: Path) -> LongJob:
    """Its piece is taken in with its plan: nobody waits for a demo twice."""
    asked = made.with_name(ASKED)
    clock = BenchClock(settings.bench, job.by, last_ms=shop.last_ms(settings.bench))
    text, files = keep_named(shop, (asked / COMMISSION).read_text(encoding="utf-8"), asked)
    piece = take_in(shop, clock, text, files)
    done = replace(job, about=piece, order={"asked": piece_known(shop, piece).asked})
    _keep(shop, settings, done, made)
    return replace(done, order=job.order)


def put(made: Path, home: Path) -> None:
    """Put a folder in its place in one step: a desk that ends meanwhile leaves what lay there whole, or the new one.

    Parameters
    ----------
    made : the new folder, on the same disk; gone afterwards.
    home : its place; nothing, or the folder that it replaces.
    """
    home.parent.mkdir(parents=True, exist_ok=True)
    put_in_place(made, home)
    shutil.rmtree(made, ignore_errors=True)
