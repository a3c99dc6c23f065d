"""Whether the rubber leaves every hollow of the body."""

from __future__ import annotations

import numpy as np

from moldwright.geometry.on_body import found_on
from moldwright.job.solids_chain import KeptBody
from moldwright.mold.trapped import RubberGives, rubber_trapped, trapped


def refuse_trapped(body: KeptBody, gives: RubberGives) -> None:
    """Refuse a body that would hold its rubber.

    Parameters
    ----------
    body : what the rubber is laid on.
    gives : what the rubber and its coats allow.

    Raises NoSafePlan ("rubber-trapped").
    """
    held = trapped(body.hollows.value, gives)
    if held is not None:
        raise rubber_trapped(held, gives, found_on(body.mounted.value.body, np.array(held.at), held.ball_mm))
