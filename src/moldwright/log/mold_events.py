"""What happens to a mold after it is made."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from moldwright.log.event import Body
from moldwright.log.ids import PlanId, RunId


class MoldState(StrEnum):
    """How a mold is found."""

    GOOD = "good"
    WORN = "worn"
    TORN = "torn"
    MENDED = "mended"
    SPENT = "spent"


@dataclass(frozen=True, slots=True)
class MoldMade(Body):
    """A mold enters the register; `run`, `plan`: of what made it, None for one that is older than the records.

    `drawn`: casts drawn before it was registered; `lasts`: casts that it is expected to give, None: by its rubber;
    `cast`: the resin, plaster or other class that is cast in it, "" where its runs' plans tell, or nobody does.
    """

    name: str
    run: RunId | None = None
    plan: PlanId | None = None
    rubber: str = ""
    drawn: int = 0
    lasts: int | None = None
    stored: str = ""
    cast: str = ""


@dataclass(frozen=True, slots=True)
class MoldInspected(Body):
    """It was looked over."""

    state: MoldState
    text: str = ""


@dataclass(frozen=True, slots=True)
class MoldMeasured(Body):
    """A cast of it, or its mouth, against the original: how much smaller, in percent."""

    shrink_pct: float


@dataclass(frozen=True, slots=True)
class MoldStored(Body):
    """Where it stands now."""

    stored: str


@dataclass(frozen=True, slots=True)
class MoldRetired(Body):
    """No more casts come of it."""

    why: str = ""
