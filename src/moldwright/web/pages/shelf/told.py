"""What the shelf's calls take and give, for their description (OpenAPI)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel, ConfigDict, Field

from moldwright.records.told import LONGEST
from moldwright.web.typed_in import Quantity


class _Typed(BaseModel):
    """Words as they were typed; the records read them."""

    model_config = ConfigDict(extra="forbid", str_max_length=LONGEST)


class LotArriving(_Typed):
    """A lot that came in."""

    material: str = Field("", description="As the plans' lists and the library call it.")
    amount: Quantity = Field(description='How much, with its unit: "5 kg", "500 ml", "12".')
    name: str = Field("", description="Of a material of the shop's own, in no list.")
    number: str = Field("", description="The number on its label.")
    supplier: str = ""
    on: str = Field("", description="The day it came in, ISO 8601; today if left out.")
    expires: str = Field("", description='To when it keeps, as printed: "2027-06-30", "2027-06".')
    keeps: Quantity = Field("", description='How long once it is open: "180 days".')
    stored: str = Field("", description="Where it stands.")
    certificate: str = Field("", description="The hash of a kept file.")
    data_sheet: str = Field("", description="The hash of a kept file.")


class LotOpening(_Typed):
    """A seal that was broken."""

    on: str = Field("", description="The day, ISO 8601; today if left out.")


class LotCounting(_Typed):
    """What there is of a lot on the shelf."""

    amount: Quantity = Field(description="What the scale shows, or how many.")
    empty: Quantity = Field("", description="What its empty pot with lid weighs.")
    at: str = Field("", description='When, "2026-11-27 17:30"; now if left out.')


class LotUsing(_Typed):
    """What was used of a lot outside of a run."""

    amount: Quantity
    why: str = ""
    at: str = Field("", description='When, "2026-11-27 17:30"; now if left out.')


class LotMoving(_Typed):
    """Where a lot stands now."""

    stored: str


class LotPapersSent(_Typed):
    """Papers of a lot, by the hashes of kept files."""

    certificate: str = ""
    data_sheet: str = ""


class LotReason(_Typed):
    """Why."""

    why: str = ""


class LotNote(BaseModel):
    """What is to be remembered of a lot."""

    text: str = Field(max_length=2000)


@dataclass(frozen=True, slots=True)
class LotTold:
    """A lot: amounts in its unit, days as ISO 8601; the same object as `moldwright lot show --json` has."""

    id: str
    code: str
    kind: str
    material: str
    name: str
    unit: str
    left: float
    over: float
    state: str
    expires: str
    stored: str
    number: str
    supplier: str
    received: str
    amount: float
    opened: str
    life_days: int | None
    density_g_ml: float | None
    weighed: float
    not_counted_g: float
    recalled: str | None
    discarded: str | None
    notes: list[str]
    certificate: str | None
    data_sheet: str | None


@dataclass(frozen=True, slots=True)
class LotsTold:
    """The lots that were asked for, in their order; `next`: those to take where there is a choice."""

    lots: list[LotTold]
    next: list[str]


@dataclass(frozen=True, slots=True)
class CountTold:
    """A count: what the log said there should be, and what was found."""

    at_ms: int
    said: float
    found: float


@dataclass(frozen=True, slots=True)
class LotStoryTold:
    """A lot, what it went into, and its log."""

    lot: LotTold
    counts: list[CountTold]
    went_into: list[dict[str, Any]]
    molds: list[str]
    pieces: list[dict[str, Any]]
    log: list[dict[str, Any]]


@dataclass(frozen=True, slots=True)
class LotDone:
    """What was written down, in words; `event`: the code by which it is put back; how the lot then stands."""

    said: str
    heeds: list[str]
    event: str
    lot: LotTold


@dataclass(frozen=True, slots=True)
class EntryStruck:
    """An entry that was struck out, in words."""

    said: str
    struck: str
    subject: str


@dataclass(frozen=True, slots=True)
class OutlooksTold:
    """How long each material lasts, and what the runs under way take."""

    materials: list[dict[str, Any]]
    runs: list[dict[str, Any]]


@dataclass(frozen=True, slots=True)
class ToBuyTold:
    """What to buy till a day."""

    until: str
    buy: list[dict[str, Any]]
