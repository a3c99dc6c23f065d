"""What boxes of a page hold when they are sent, in the bodies of acts, and in the address of a list."""

from __future__ import annotations

from typing import Annotated

from fastapi import Query
from pydantic import AfterValidator, BeforeValidator, Field

from moldwright.words.speaker import in_house_marks

Line = Annotated[str, Field(max_length=400)]
"""A line of words."""
Quantity = Annotated[Line, AfterValidator(in_house_marks)]
"""A quantity, in the marks of whoever typed it; from here on in those of the house."""
SoMany = Annotated[int | None, BeforeValidator(lambda told: None if told == "" else told)]
"""A count; an empty box is none."""
Word = Annotated[str, Query(max_length=200)]
"""What a list is looked through for: words, or one of what it offers."""
