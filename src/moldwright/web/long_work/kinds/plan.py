"""A piece that was laid out as a folder, planned."""

from __future__ import annotations

from dataclasses import replace
from hashlib import sha256
from pathlib import Path
from typing import Any

from moldwright.making.files.rough import JSON, SHEET
from moldwright.making.order import gather
from moldwright.making.plan import plan_folder
from moldwright.making.plans import PLAN_FILE
from moldwright.making.screen.kept import made_screen_file
from moldwright.making.store import store_of
from moldwright.plan.plan import Plan
from moldwright.plan.rough import RoughPlan
from moldwright.progress import Progress
from moldwright.sheets.rough_words import cast_rows, glove_rows, original_rows
from moldwright.units.system import UnitSystem
from moldwright.web.long_work.files import ASKED, MADE, write_tree

COMMISSION, TOLD, SHEETS = "commission.toml", "told.json", "sheets"


def plan(job: Path, progress: Progress, asked: str = "") -> dict[str, Any]:
    """Plan it; where water or weight alone tell the original, its quantities alone.

    Parameters
    ----------
    job : the job's folder, with the piece laid out.
    progress : told the stages.
    asked : the entry that asked for it; it goes with the plan into the log.
    """
    store = store_of(None, False)
    found = plan_folder(gather(job / ASKED / COMMISSION), job / MADE, store, progress)
    if isinstance(found, Plan):
        made_screen_file(job / MADE, store, progress)
    if isinstance(found, RoughPlan):
        _for_the_page(found, job / MADE)
    file = job / MADE / (PLAN_FILE if isinstance(found, Plan) else JSON)
    return {"plan": sha256(file.read_bytes()).hexdigest(), "rough": not isinstance(found, Plan)}


def trial(job: Path, progress: Progress, asked: str = "", commission: str = "") -> dict[str, Any]:
    """Plan it as it is laid out, for who asks what would be; the piece's log is told nothing of it.

    Parameters
    ----------
    job : the job's folder, with the piece laid out by the commission that is tried.
    progress : told the stages.
    asked : the entry of the commission that it is tried against.
    commission : what is tried; it is laid out already.
    """
    return plan(job, progress)


def _for_the_page(found: RoughPlan, folder: Path) -> None:
    """What its sheet says, in both systems of units; the sheet where a plan's sheets lie."""
    told = {}
    for units in UnitSystem:
        plan = replace(found, units=units)
        told[units.value] = [*original_rows(plan.original, units), *glove_rows(plan), *cast_rows(plan)]
    write_tree(folder / TOLD, told)
    (folder / SHEETS).mkdir()
    (folder / SHEET).rename(folder / SHEETS / SHEET)
