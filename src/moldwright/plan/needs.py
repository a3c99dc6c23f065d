"""Something to have at hand: what, how much, for what part of the work."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from moldwright.plan.ids import StepId
from moldwright.plan.mixes import MixKind, PartKind, StuffKey
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
    """In what form a material is bought that is worked in another."""

    ROLLS = "rolls"
    DRY = "dry gypsum"
    FILAMENT = "filament"
    STOCK = "stock"


@dataclass(frozen=True, slots=True)
class NeedPlan:
    """One row.

    `kind` and `material` are its sheet's kind and name, "" where it has none and the words for its `id` are ours; ids
    are unique within a kind, but for the sizes and uses of cups and syringes. `part`: which part of a mix it is, with
    the `color` of a pigment or tint, `called` as the trade calls A or B; in what `form` it is bought,
    `roll_mm` width and length of one roll. `spare`: one cup that gels is counted in; `size_ml` of a cup, bucket or
    syringe, `cups_for` what is mixed in it. `people`: for how many of
    what is worn it is, `together` at which steps, where the others take fewer. `for_` is "for" in JSON.
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
    spare: bool = False
    size_ml: float | None = None
    cups_for: MixKind | None = None
    roll_mm: tuple[float, float] | None = None
    people: int = 1
    together: tuple[StepId, ...] = ()
    called: str = ""

    @property
    def stuff(self) -> StuffKey:
        """Of what it is."""
        return StuffKey(self.kind, self.id)
