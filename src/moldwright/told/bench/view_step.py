"""What a step says on a screen, and the wall that is drawn beside it."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.materials.pictograms import Pictogram
from moldwright.sheets.step_tables import StepTable


@dataclass(frozen=True, slots=True)
class CautionShown:
    """A caution of a step: how grave, what it says, whether a person can be hurt, the pictograms that go with
    it, what it asks to wear. `first_aid`: it is the one that tells what to do first of skin and eyes."""

    severity: str
    text: str
    hazard: bool
    pictograms: tuple[Pictogram, ...]
    gear: tuple[str, ...]
    first_aid: bool = False


@dataclass(frozen=True, slots=True)
class SheetOf:
    """The safety data sheet that the shop keeps with a lot of what the step takes: its file, by its hash; "" where it
    keeps none."""

    stuff: str
    file: str


@dataclass(frozen=True, slots=True)
class StepShown:
    """A step as its sheet prints it: cautions gravest first, then what is done.

    `first_aid`: what the plan says of skin and eyes, where the step has a caution that hurts a person; "" for none.
    """

    number: int
    title: str
    time: str
    group: str
    at_hand: str
    before: tuple[str, ...]
    do: tuple[str, ...]
    write: tuple[str, ...]
    cautions: tuple[CautionShown, ...]
    pictograms: tuple[Pictogram, ...]
    first_aid: str
    lift: str
    wait: str
    waits_within: bool
    tables: tuple[StepTable, ...] = ()
    sheets: tuple[SheetOf, ...] = ()


@dataclass(frozen=True, slots=True)
class WallLayer:
    """A layer of a wall as it is drawn: `sub` are small lines under its name, `share` its part of the height."""

    key: str
    name: str
    sub: tuple[str, ...]
    color: str
    pattern: str
    share: float
    notches: int


@dataclass(frozen=True, slots=True)
class LayerState:
    """How far a layer is: built, in-hand (`share` of its acts done) or to-come; `packing` the same of what is packed
    behind it, "" where nothing is."""

    state: str
    share: float
    packing: str = ""
