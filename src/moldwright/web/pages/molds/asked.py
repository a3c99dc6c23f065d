"""What is asked of molds: the bodies of the acts."""

from __future__ import annotations

from typing import Annotated

from pydantic import BaseModel, Field

from moldwright.log.mold_events import MoldState
from moldwright.records.molds.write import MOST_CASTS
from moldwright.web.typed_in import Line, Quantity, SoMany


class MadeMold(BaseModel):
    """The mold that a run made."""

    run: Line
    name: Line = ""
    stored: Line = ""


class OlderMoldAsked(BaseModel):
    """A mold that is older than the records: materials as the library calls them, or in your own words."""

    name: Line
    rubber: Line = ""
    cast: Line = ""
    stored: Line = ""
    drawn: SoMany = Field(None, ge=0, le=MOST_CASTS)
    lasts: SoMany = Field(None, ge=1, le=MOST_CASTS)


class LookAsked(BaseModel):
    """How a mold was found; `file`: a kept photo that shows it."""

    state: MoldState
    text: Line = ""
    file: Line = ""


class ShrinkAsked(BaseModel):
    """How much smaller than the original: "0.4 %"; "-0.2 %" is larger."""

    shrink: Quantity


class MoldPlace(BaseModel):
    """Where it stands now."""

    stored: Line


class MoldNote(BaseModel):
    """A note."""

    text: Annotated[str, Field(max_length=4000)]


class MoldPhoto(BaseModel):
    """A kept file that shows it."""

    file: Line
    text: Line = ""


class MoldWhy(BaseModel):
    """A reason."""

    why: Line = ""


class MoldStrike(BaseModel):
    """An entry, by its code, and why a line goes through it."""

    event: Line
    why: Line = ""


class MoldRunAsked(BaseModel):
    """A run that casts from it: of how many casts (none said: as many as its plan's edition), how many a day, for which
    edition."""

    casts: SoMany = Field(None, ge=1, le=MOST_CASTS)
    batch: SoMany = Field(None, ge=1, le=MOST_CASTS)
    edition: Line = ""
