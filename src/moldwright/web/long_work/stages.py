"""How far long work is as a whole: its stages in their order, each as long as it took when it was measured."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import lru_cache
from importlib.resources import files
from typing import Any

from moldwright.web.long_work.job import WorkKind

Course = Mapping[str, float]
"""The stages of one way to do some work, in their order, and how long each took [s]."""
LIKE = {WorkKind.TRIAL: WorkKind.PLAN, WorkKind.DEMO: WorkKind.PLAN}
"""Work that goes through another kind's stages."""


def courses(kind: WorkKind) -> tuple[Course, ...]:
    """The courses that work of a kind may take.

    Parameters
    ----------
    kind : what is done.
    """
    return tuple(_measured()[LIKE.get(kind, kind).value])


@lru_cache(maxsize=1)
def _measured() -> dict[str, Any]:
    text = files("moldwright.web.long_work").joinpath("data/stages.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


class WholeCourse:
    """The share of all work that is done, which never goes back.

    The course is the first that holds the first known stage. Whatever stands before a stage is done when that is told,
    whether it was told or lay kept; a stage that the course does not hold adds nothing.

    Parameters
    ----------
    kind : what is done.
    """

    def __init__(self, kind: WorkKind) -> None:
        self._courses = courses(kind)
        self._course: Course = {}
        self._share = 0.0

    def at(self, stage: str, fraction: float) -> float:
        """The share of the whole, 0 to 1.

        Parameters
        ----------
        stage : what is done now.
        fraction : of it, 0 to 1.

        >>> whole = WholeCourse(WorkKind.LOOK_SCAN)
        >>> whole.at("reading the scan", 0.0), 0.0 < whole.at("look for undercuts", 0.5) < 1.0
        (0.0, True)
        """
        self._course = self._course or next((each for each in self._courses if stage in each), {})
        if stage in self._course:
            names = list(self._course)
            before = sum(self._course[name] for name in names[: names.index(stage)])
            done = before + min(max(fraction, 0.0), 1.0) * self._course[stage]
            self._share = max(self._share, done / sum(self._course.values()))
        return self._share
