"""What the desk's JSON tells of editions: the forms of `told/edition_trees.py`, for who reads the API's description."""

from __future__ import annotations

from pydantic import BaseModel


class NumberedTold(BaseModel):
    """A numbered piece; times in ms since 1970-01-01 UTC."""

    id: str
    code: str
    series: str
    number: int
    of: int
    state: str
    whom: str
    on: str
    void: bool
    run: str | None
    cast: int | None
    given_ms: int
    certificates_ms: list[int]


class EditionTold(BaseModel):
    """An edition with what is left of it."""

    id: str
    code: str
    name: str
    material: str
    size: int
    proofs: int
    left: int
    proofs_left: int
    opened_ms: int


class EditionsTold(BaseModel):
    """All editions."""

    editions: list[EditionTold]


class WholeEdition(EditionTold):
    """An edition with its pieces."""

    pieces: list[NumberedTold]
