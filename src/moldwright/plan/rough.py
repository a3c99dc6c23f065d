"""A plan of quantities alone: what `quantities.json` holds where a volume is known and nothing tells a form.

A type of its own, so that none of what hangs on a form can be asked of it, and nobody takes it for a plan.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar, Literal

from moldwright.materials.gear import Gear
from moldwright.materials.words import Making
from moldwright.plan.assumptions import Assumption
from moldwright.plan.cast import CastWay
from moldwright.plan.cautions import Severity
from moldwright.plan.coats import Coat
from moldwright.plan.ids import CautionId
from moldwright.plan.lines import Line
from moldwright.plan.mixes import MixKind, MixPlan
from moldwright.plan.needs import NeedGroup, NeedPlan
from moldwright.plan.original import Source
from moldwright.plan.quantity import Quantity
from moldwright.ranges import Range
from moldwright.units.system import UnitSystem

ROUGH_VERSION = 1


class Lack(StrEnum):
    """What no volume tells."""

    FORM = "form"
    SEAM = "seam"
    UNDERCUTS = "undercuts"
    REMOVAL = "removal"
    MOUTH = "mouth"
    AIR = "air"
    TEMPLATES = "templates"
    STEPS = "steps"


@dataclass(frozen=True, slots=True)
class RoughOriginal:
    """The original by its volume: volume and surface at 90 %, its height, a range where nobody told it; `source` told
    the volume, `also` who else."""

    volume_ml: Range
    area_cm2: Range
    height_mm: Range
    source: Source
    also: tuple[Source, ...]


@dataclass(frozen=True, slots=True)
class RoughCups:
    """Cups of one thing that is mixed.

    `cup` is one of them, true whatever the form; `count` how many are mixed in all, for each cast where it is cast.
    `halved`: half of every amount in it can still be measured.
    """

    for_: MixKind
    coat: Coat | None
    count: Range
    cup: MixPlan
    halved: bool


@dataclass(frozen=True, slots=True)
class RoughCoat:
    """One coat and all that is mixed for it, its share of the flange left out [g]."""

    coat: Coat
    mixed_g: Range


@dataclass(frozen=True, slots=True)
class RoughGlove:
    """Rubber to mix [g]: each coat, the flange, what is packed into undercuts, and all together."""

    coats: tuple[RoughCoat, ...]
    flange_g: Range
    packing_g: Range
    mixed_g: Range


@dataclass(frozen=True, slots=True)
class RoughCast:
    """One cast: what the mold holds, a plinth's included, skin and back-fill [ml], what the piece weighs [g].

    `ways`: the likely way first; more than one where it hangs on the form whether a core is left and reached, and then
    `solid_g` is the skin's mix that one solid cast takes.
    """

    ways: tuple[CastWay, ...]
    volume_ml: Range
    skin_mm: float
    skin_ml: Range
    backfill_ml: Range
    mass_g: Range
    solid_g: Range
    loading_wt_pct: float


@dataclass(frozen=True, slots=True)
class RoughShell:
    """The support shell, laid by hand over whatever is there: its material and its weight once dry [g]."""

    material: str
    making: Making
    dry_g: Range


@dataclass(frozen=True, slots=True)
class RoughCaution:
    """A warning about a material, a pair of them or a kind of work, on the part of the list that it belongs to.

    The fields are those of a plan's `Caution`; it stands on no step.
    """

    IN_WORDS: ClassVar[str] = "text"
    """The key under which quantities.json tells it in words."""
    id: CautionId
    for_: NeedGroup
    rule: str
    severity: Severity
    lines: tuple[Line, ...]
    quantities: tuple[Quantity, ...]
    source: str
    hazard: bool
    between: tuple[str, ...]
    gear: tuple[Gear, ...]


@dataclass(frozen=True, slots=True)
class RoughPlan:
    """Quantities of one commission without a form, every one a range at 90 % or a cup that is true whatever the form.

    `lacks`: what it cannot tell; `given_by`: what would tell it; `rubber`: the chosen class's name.
    """

    schema_version: int
    kind: Literal["quantities only"]
    name: str
    plan_hash: str
    units: UnitSystem
    lacks: tuple[Lack, ...]
    given_by: tuple[Source, ...]
    assumed: tuple[Assumption, ...]
    original: RoughOriginal
    glove: RoughGlove
    shell: RoughShell
    cast: RoughCast
    cups: tuple[RoughCups, ...]
    needs: tuple[NeedPlan, ...]
    cautions: tuple[RoughCaution, ...]
    rubber: str
    temperature_c: float
    scale_g: float
    marks_ml: float | None
    count: int
