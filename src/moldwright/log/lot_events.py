"""What happens to a lot of a material."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.log.event import Body
from moldwright.log.ids import FileHash
from moldwright.plan.mixes import StuffKey
from moldwright.plan.needs import NeedUnit


@dataclass(frozen=True, slots=True)
class Stuff:
    """A material as the plans' lists call it: a need's `kind` and `id`; `name` is for people.

    `part`: which part of a mix it is, as the name ends too ("B hardener"): labels set it apart, so that A and B are
    not told by the end of a long name.
    """

    kind: str
    id: str
    name: str = ""
    part: str = ""

    @property
    def key(self) -> StuffKey:
        """What it is known by."""
        return StuffKey(self.kind, self.id)


@dataclass(frozen=True, slots=True)
class LotReceived(Body):
    """A lot comes in.

    Days are ISO 8601 dates, "" where nobody knows. `amount`: in `unit`, grams or milliliters or pieces. `supplier`,
    `number`: whose, and the number on the label. `life_days`: how long it keeps once it is open. `certificate`: the
    file that came with it. `sheet`: its safety data sheet's file. `density_g_ml`: of a lot that is kept in milliliters:
    with it what is weighed in grams counts against the lot, without it that is told.
    """

    stuff: Stuff
    amount: float
    unit: NeedUnit
    on: str
    number: str = ""
    supplier: str = ""
    expires: str = ""
    life_days: int | None = None
    stored: str = ""
    certificate: FileHash | None = None
    sheet: FileHash | None = None
    density_g_ml: float | None = None


@dataclass(frozen=True, slots=True)
class LotOpened(Body):
    """Its seal is broken."""

    on: str


@dataclass(frozen=True, slots=True)
class LotCounted(Body):
    """What there is of it, weighed or counted on the shelf: from here on the log's figures count on from this."""

    amount: float


@dataclass(frozen=True, slots=True)
class LotUsed(Body):
    """Some of it was used outside of any run."""

    amount: float
    why: str = ""


@dataclass(frozen=True, slots=True)
class LotMoved(Body):
    """It stands elsewhere now."""

    stored: str


@dataclass(frozen=True, slots=True)
class LotPapers(Body):
    """Papers of it that came later, or in place of others; None: as before."""

    certificate: FileHash | None = None
    sheet: FileHash | None = None


@dataclass(frozen=True, slots=True)
class LotDiscarded(Body):
    """The rest of it is gone."""

    why: str = ""


@dataclass(frozen=True, slots=True)
class LotRecalled(Body):
    """Not to be used: what was made of it is to be looked at."""

    why: str
