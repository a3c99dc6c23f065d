"""`moldwright demo`: the main job on a sculpture of our own."""

from __future__ import annotations

from pathlib import Path

from moldwright.desk.stage_bars import stages
from moldwright.making.demo.folder import demo_folder
from moldwright.making.store import store_of
from moldwright.plan.plan import Plan


def run_demo(
    out: Path, quiet: bool = False, cache: Path | None = None, no_cache: bool = False, photos: bool = False
) -> Plan:
    """Make the demo's folder while its stages are told.

    Parameters
    ----------
    out : the demo's folder.
    quiet : do not tell the stages.
    cache : where computed stages are kept.
    no_cache : keep nothing.
    photos : the piece that is known by photos.
    """
    with stages(quiet) as progress:
        return demo_folder(out, photos, store_of(cache, no_cache), progress)
