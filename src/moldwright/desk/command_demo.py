"""`moldwright demo`: the main job on a sculpture of our own."""

from __future__ import annotations

from pathlib import Path

from moldwright.desk.command_plan import plan_into, store_of
from moldwright.desk.stage_bars import stages
from moldwright.making.demo.original import write_demo, write_photo_demo
from moldwright.making.folder import holds_plan, whole_folder
from moldwright.making.order import gather
from moldwright.plan.plan import Plan

PARTS = ({"otter.stl", "commission.toml", "plan"}, {"photos", "commission.toml", "plan"})


def holds_demo(folder: Path) -> bool:
    """Whether the folder is an earlier demo's: its scan or photos, its commission, its plan and nothing else."""
    return {entry.name for entry in folder.iterdir()} in PARTS and holds_plan(folder / "plan")


def run_demo(
    out: Path, quiet: bool = False, cache: Path | None = None, no_cache: bool = False, photos: bool = False
) -> Plan:
    """Make the demo's scan and its commission, and plan it; or lay out the photos of the other one, and plan from them.

    Parameters
    ----------
    out : the demo's folder.
    quiet : do not tell the stages.
    cache : where computed stages are kept.
    no_cache : keep nothing.
    photos : the piece that is known by photos.
    """
    with stages(quiet) as progress, whole_folder(out, own=holds_demo) as folder:
        progress("making the demo's original", 0.0)
        commission = write_photo_demo(folder) if photos else write_demo(folder)
        (folder / "plan").mkdir()
        return plan_into(folder / "plan", gather(commission), store_of(cache, no_cache), progress)
