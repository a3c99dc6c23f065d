"""Names of the plan's things that stay the same when a commission is planned again; a bench log may hold them.

They are made of our own words and of counts, never of a word that a user wrote.
"""

from __future__ import annotations

from typing import NewType

CoatId = NewType("CoatId", str)
MixId = NewType("MixId", str)
SpotId = NewType("SpotId", str)
StepId = NewType("StepId", str)
CautionId = NewType("CautionId", str)

NOWHERE = StepId("")
"""The step of a caution that stands on none."""


def coat_id(number: int) -> CoatId:
    """The coat's id, counted from the original outward.

    Parameters
    ----------
    number : from 1.

    >>> coat_id(2)
    'coat-2'
    """
    return CoatId(f"coat-{number}")


def spot_id(number: int) -> SpotId:
    """The id of a packed place, in the plan's order.

    Parameters
    ----------
    number : from 1.

    >>> spot_id(1)
    'spot-1'
    """
    return SpotId(f"spot-{number}")


def coat_mix_step(coat: CoatId) -> StepId:
    """The step that mixes a coat's rubber.

    Parameters
    ----------
    coat : the coat's id.

    >>> coat_mix_step(CoatId("coat-2"))
    'coat-2-mix'
    """
    return StepId(f"{coat}-mix")


def caution_id(step: StepId, rule: str) -> CautionId:
    """The id of a caution: where it stands and what it is about.

    Parameters
    ----------
    step : the step's id, `NOWHERE` for none.
    rule : the caution's rule.

    >>> caution_id(StepId("skin"), "isocyanate"), caution_id(NOWHERE, "isocyanate")
    ('skin.isocyanate', 'plan.isocyanate')
    """
    return CautionId(f"{step or 'plan'}.{rule}")
