"""Ids of what the shop keeps. All are UUIDs of version 7, made by whoever writes the event first."""

from __future__ import annotations

from typing import NewType

EventId = NewType("EventId", str)
SubjectId = NewType("SubjectId", str)
"""What an event is about: a run, a lot, a mold, an edition, a recipe or a piece."""
RunId = NewType("RunId", SubjectId)
LotId = NewType("LotId", SubjectId)
MoldId = NewType("MoldId", SubjectId)
EditionId = NewType("EditionId", SubjectId)
RecipeId = NewType("RecipeId", SubjectId)
PieceId = NewType("PieceId", SubjectId)
"""What the shop was asked to copy."""
NumberedId = NewType("NumberedId", str)
"""One numbered cast of an edition."""
PlanId = NewType("PlanId", str)
"""SHA-256 of a plan.json's bytes, in hexadecimal."""
FileHash = NewType("FileHash", str)
"""SHA-256 of a kept file's bytes, in hexadecimal."""
