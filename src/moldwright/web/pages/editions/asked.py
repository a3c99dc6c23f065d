"""What is asked of editions: the bodies of the acts."""

from __future__ import annotations

from pydantic import BaseModel, Field

from moldwright.log.edition_events import PieceState, Series
from moldwright.records.editions.open import MOST
from moldwright.web.typed_in import Line, SoMany


class EditionAsked(BaseModel):
    """An edition that is to be opened."""

    name: Line
    size: SoMany = Field(None, ge=0, le=MOST)
    proofs: SoMany = Field(None, ge=0, le=MOST)
    material: Line = ""


class SizeAsked(BaseModel):
    """Another size."""

    size: int = Field(ge=0, le=MOST)
    proofs: SoMany = Field(None, ge=0, le=MOST)
    why: Line = ""


class NumberGivenAsked(BaseModel):
    """A number for a piece: this one, or the next free; `cast`: which it is, "RUN/2", "" for one without a run."""

    series: Series = Series.NUMBERED
    number: SoMany = Field(None, ge=0, le=MOST)
    cast: Line = ""


class PieceMove(BaseModel):
    """Where a piece is now, for or to whom, since which day (ISO 8601; "" for today)."""

    state: PieceState
    whom: Line = ""
    on: Line = ""


class PieceWhy(BaseModel):
    """A reason."""

    why: Line = ""


class CertificateForm(BaseModel):
    """A certificate: on "a4" or "letter", whose work it is, with a kept photo."""

    paper: Line = "a4"
    maker: Line = ""
    file: Line = ""
