"""What boxes of a page hold when they are sent, in the bodies of acts."""

from __future__ import annotations

from typing import Annotated

from pydantic import BeforeValidator, Field

Line = Annotated[str, Field(max_length=400)]
"""A line of words."""
SoMany = Annotated[int | None, BeforeValidator(lambda told: None if told == "" else told)]
"""A count; an empty box is none."""
