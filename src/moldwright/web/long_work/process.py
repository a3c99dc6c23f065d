"""The process that does one job: it says how far it is, leaves an answer, and ends with the desk that started it."""

from __future__ import annotations

import sys
import time
from pathlib import Path
from typing import Any

from moldwright.child.serve import leave, order_in
from moldwright.errors import ComputationFailed, MoldwrightError
from moldwright.making.refused import draw_refused
from moldwright.units.system import UnitSystem
from moldwright.web.long_work.files import ANSWER, REFUSED, SAID, write_tree
from moldwright.web.long_work.job import WorkKind
from moldwright.web.long_work.kinds import work_of
from moldwright.web.long_work.stages import WholeCourse

OFTEN_S = 0.2
"""How often it says how far it is within a stage."""


class Saying:
    """Progress as a file that any page can read.

    Parameters
    ----------
    file : where.
    kind : of the work.
    """

    def __init__(self, file: Path, kind: WorkKind) -> None:
        self._file, self._stage, self._said_s, self._whole = file, "", 0.0, WholeCourse(kind)

    def __call__(self, stage: str, fraction: float) -> None:
        """Say how far it is.

        Parameters
        ----------
        stage : what is done now.
        fraction : of it, 0 to 1.
        """
        now_s = time.monotonic()
        if stage == self._stage and fraction < 1.0 and now_s - self._said_s < OFTEN_S:
            return
        self._stage, self._said_s = stage, now_s
        write_tree(self._file, {"stage": stage, "share": self._whole.at(stage, fraction)})


def main(folder: Path) -> None:
    """Do what the order in a folder says; the answer lies beside it in the end.

    Parameters
    ----------
    folder : the process's own, within the job's.
    """
    order = order_in(folder)
    leave(_answered(order, folder.parent), folder.parent / ANSWER)


def _answered(order: dict[str, Any], job: Path) -> dict[str, Any]:
    try:
        kind = WorkKind(order["kind"])
        return {"result": work_of(kind)(job, Saying(job / SAID, kind), **order["order"])}
    except MoldwrightError as refused:
        if not refused.picture:
            draw_refused(refused, job / REFUSED, UnitSystem.METRIC)
        return {"refused": refused.as_kept()}
    except MemoryError:
        remedy = "Close other programs or use a smaller scan, then try again."
        return {"broken": ComputationFailed("out-of-memory", "memory ran out", None, "", remedy).as_kept()}
    except Exception as error:
        actual = f"{type(error).__name__}: {error}"[:300]
        remedy = "Try again; if it stays so, please report it with this line."
        return {"broken": ComputationFailed("unforeseen", actual, None, "", remedy).as_kept()}


if __name__ == "__main__":
    main(Path(sys.argv[1]))
