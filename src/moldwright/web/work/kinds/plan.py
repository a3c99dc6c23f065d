"""A piece that was laid out as a folder, planned."""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path
from typing import Any

from moldwright.making.files.rough import JSON
from moldwright.making.order import gather
from moldwright.making.plan import plan_folder
from moldwright.making.plans import PLAN_FILE
from moldwright.making.store import store_of
from moldwright.plan.plan import Plan
from moldwright.progress import Progress
from moldwright.web.work.files import ASKED, MADE

COMMISSION = "commission.toml"


def plan(job: Path, progress: Progress) -> dict[str, Any]:
    """Plan it; where water or weight alone tell the original, its quantities alone.

    Parameters
    ----------
    job : the job's folder, with the piece laid out.
    progress : told the stages.
    """
    found = plan_folder(gather(job / ASKED / COMMISSION), job / MADE, store_of(None, False), progress)
    file = job / MADE / (PLAN_FILE if isinstance(found, Plan) else JSON)
    return {"plan": sha256(file.read_bytes()).hexdigest(), "rough": not isinstance(found, Plan)}
