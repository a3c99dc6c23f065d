"""The demo's piece, made and planned, for the shop that one tries the desk in."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from moldwright.making.demo.original import write_demo
from moldwright.progress import Progress
from moldwright.web.long_work.files import ASKED
from moldwright.web.long_work.kinds.plan import plan


def demo(job: Path, progress: Progress) -> dict[str, Any]:
    """Make the demo's original and its commission, and plan it.

    Parameters
    ----------
    job : the job's folder.
    progress : told the stages.
    """
    progress("making the demo's original", 0.0)
    write_demo(job / ASKED)
    return plan(job, progress)
