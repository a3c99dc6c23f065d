"""The mold that a run made enters the register."""

from __future__ import annotations

from moldwright.errors import InputRefused
from moldwright.log.ids import MoldId
from moldwright.records.molds.write import register_made
from moldwright.records.runs.doing.at_run import AtRun
from moldwright.records.runs.next_act import mold_is_made


def register_mold(at: AtRun, name: str = "") -> MoldId:
    """Put the mold that the run made into the register.

    Parameters
    ----------
    at : the bench.
    name : what it is called; "" for the run's name.

    Raises InputRefused ("mold-not-made") and as `records.molds.write.register_made`.
    """
    if not mold_is_made(at.run.state):
        remedy = "Tick the steps of the mold first: it stands in the register once it can be cast from."
        raise InputRefused("mold-not-made", "a mold whose steps are not done", "a mold that is made", "", remedy)
    return register_made(at.shop, at.clock, at.run.id, name)
