"""Something to have at hand: what, how much, for what part of the work."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from moldwright.plan.mixes import PartKind
from moldwright.ranges import Range


class NeedGroup(StrEnum):
    """The part of the work that a thing is needed for, in the order of the list."""

    RUBBER = "rubber"
    SHELL = "shell"
    CASTING = "casting"
    FINISHING = "finishing"
    PROTECTION = "protection"


class NeedUnit(StrEnum):
    """What an amount is counted in."""

    GRAM = "g"
    MILLILITER = "ml"
    EACH = "each"
    PAIR = "pair"
    METER = "m"


class NeedForm(StrEnum):
    """In what form a shell's material is bought."""

    ROLLS = "rolls"
    DRY = "dry gypsum"
    FILAMENT = "filament"


@dataclass(frozen=True, slots=True)
class NeedPlan:
    """One row.

    `kind` and `material` are its sheet's kind and name, "" where it has none and the words for its `id` are ours; ids
    are unique within a kind. `part`: which part of a mix it is, with the `color` of a pigment or tint; `form` of a
    shell's material. `for_` is "for" in JSON.
    """

    IN_WORDS: ClassVar[str] = "name"
    """The key under which plan.json tells it in words."""
    kind: str
    id: str
    material: str
    amount: Range
    unit: NeedUnit
    for_: NeedGroup
    part: PartKind | None = None
    color: str = ""
    form: NeedForm | None = None
