"""What boxes of a page hold when they are sent, in the bodies of acts."""

from __future__ import annotations

from typing import Annotated

from pydantic import AfterValidator, BeforeValidator, Field

from moldwright.words.speaker import in_house_marks

Line = Annotated[str, Field(max_length=400)]
"""A line of words."""
Quantity = Annotated[Line, AfterValidator(in_house_marks)]
"""A quantity, in the marks of whoever typed it; from here on in those of the house."""
SoMany = Annotated[int | None, BeforeValidator(lambda told: None if told == "" else told)]
"""A count; an empty box is none."""
