"""The demo's folder: its original, its commission and its plan, written whole or not at all."""

from __future__ import annotations

from pathlib import Path

from moldwright.making.demo.original import write_demo, write_photo_demo
from moldwright.making.folder import holds_plan, whole_folder
from moldwright.making.order import gather
from moldwright.making.plan import plan_into
from moldwright.plan.plan import Plan
from moldwright.progress import Progress
from moldwright.store.memory import Store

PARTS = ({"otter.stl", "commission.toml", "plan"}, {"photos", "commission.toml", "plan"})


def holds_demo(folder: Path) -> bool:
    """Whether the folder is an earlier demo's: its scan or photos, its commission, its plan and nothing else."""
    return {entry.name for entry in folder.iterdir()} in PARTS and holds_plan(folder / "plan")


def demo_folder(out: Path, photos: bool, store: Store, progress: Progress) -> Plan:
    """Make the demo's scan and its commission, and plan it; or lay out the photos of the other one, and plan from them.

    Parameters
    ----------
    out : the demo's folder: new, empty, or an earlier demo's, whose place is taken when all is written.
    photos : the piece that is known by photos.
    store : where stages are kept.
    progress : told the stages.
    """
    with whole_folder(out, own=holds_demo) as folder:
        progress("making the demo's original", 0.0)
        commission = write_photo_demo(folder) if photos else write_demo(folder)
        (folder / "plan").mkdir()
        return plan_into(folder / "plan", gather(commission), store, progress)
