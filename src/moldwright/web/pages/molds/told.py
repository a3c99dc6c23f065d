"""What the desk's JSON tells of molds: the forms of `told/mold_trees.py`, for who reads the API's description."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel


class RangeTold(BaseModel):
    """A figure that is not sure."""

    low: float
    likely: float
    high: float


class GloveWorn(BaseModel):
    """The days on which the casts that are left are drawn at the pace of late, ISO 8601."""

    earliest: str
    likely: str
    latest: str


class GloveAhead(BaseModel):
    """When the next glove should be made, and why."""

    call: str
    why: str
    begin_by: str | None
    worn: GloveWorn | None


class MoldTold(BaseModel):
    """A mold of the register; times in ms since 1970-01-01 UTC."""

    id: str
    code: str
    name: str
    rubber: str
    stored: str
    state: str
    retired: str | None
    run: str | None
    plan: str | None
    drawn: int
    drawn_before: int
    last_ms: int
    lasts: RangeTold | None
    lasts_from: str
    left: RangeTold | None
    pace_30_days: RangeTold | None
    editions: list[str]
    numbers_left: int | None
    others_give: float
    lead_days: int | None
    next_glove: GloveAhead
    look_first: bool
    shrink: dict[str, Any] | None
    planned_shrink_pct: RangeTold | None
    files: list[str]


class MoldsTold(BaseModel):
    """The register."""

    molds: list[MoldTold]


class LogEntryTold(BaseModel):
    """An entry of a log."""

    id: str
    code: str
    at_ms: int
    bench: str
    by: str
    kind: str
    body: Any
    struck: bool


class CastDrawn(BaseModel):
    """A cast that came out of it."""

    cast: int
    at_ms: int
    mass_g: float | None
    height_mm: float | None


class MoldRunTold(BaseModel):
    """A run that made it or cast from it."""

    id: str
    code: str
    name: str
    made: bool
    edition: str | None
    started_ms: int
    unread: bool
    casts: list[CastDrawn]


class MoldStoryTold(MoldTold):
    """A mold's whole story."""

    runs: list[MoldRunTold]
    problems: list[dict[str, Any]]
    lots: list[dict[str, Any]]
    log: list[LogEntryTold]
