"""Plans that a command names by their folders."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from moldwright.making.inputs import read_text
from moldwright.plan.json_text import plan_from_json
from moldwright.plan.plan import Plan

PLAN_FILE = "plan.json"


def plans_in(folders: Iterable[Path]) -> tuple[Plan, ...]:
    """The plans of some folders.

    Parameters
    ----------
    folders : each with a plan.json, or that file itself.
    """
    files = [folder if folder.name == PLAN_FILE else folder / PLAN_FILE for folder in folders]
    return tuple(plan_from_json(read_text(file, "plan")) for file in files)
