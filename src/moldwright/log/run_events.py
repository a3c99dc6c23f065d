"""What happens in a run of a plan.

A run is one plan at the bench: its mold, then its casts. `turn` is 0 for what is done once a mold or once at the end,
and the cast's number in the run, from 1, for what is done for each cast.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from moldwright.log.event import Body
from moldwright.log.ids import EditionId, LotId, MoldId, PlanId
from moldwright.plan.ids import NOWHERE, CoatId, MixId, StepId
from moldwright.plan.mixes import PartKind


@dataclass(frozen=True, slots=True)
class Started(Body):
    """A run begins.

    `name`: of the piece, for lists. `mold`: cast from one that stands on the shelf, None: the run makes its mold.
    `casts`: how many it is for; `batch`: so many of them a day.
    """

    plan: PlanId
    name: str
    casts: int
    batch: int = 1
    mold: MoldId | None = None
    edition: EditionId | None = None


@dataclass(frozen=True, slots=True)
class Replanned(Body):
    """The run goes on by a plan that was made anew."""

    plan: PlanId


@dataclass(frozen=True, slots=True)
class MoldRegistered(Body):
    """The mold that the run made stands in the register."""

    mold: MoldId


@dataclass(frozen=True, slots=True)
class Ended(Body):
    """Nothing more will be done in this run."""

    why: str = ""


@dataclass(frozen=True, slots=True)
class Begun(Body):
    """A step is in hand."""

    step: StepId
    turn: int = 0


@dataclass(frozen=True, slots=True)
class Done(Body):
    """A step is done; its wait counts from here.

    `timed`: False where it was typed in from a sheet that did not say when: its time only keeps the order, no wait, no
    tack window and no cup's clock is told from it.
    """

    step: StepId
    turn: int = 0
    timed: bool = True


@dataclass(frozen=True, slots=True)
class LeftOut(Body):
    """A step that is not done, and why."""

    step: StepId
    why: str
    turn: int = 0


@dataclass(frozen=True, slots=True)
class CupRef:
    """One cup at the bench: the plan's, for which cast, and the how-manyth that is mixed for it: 2 where the first
    gelled, or where it became two."""

    mix: MixId
    turn: int = 0
    filling: int = 1


@dataclass(frozen=True, slots=True)
class Weighed(Body):
    """A part is in the cup.

    `mass_g` is this part's alone as it was measured; what it should have been is `target_g`. `reads_g`: the running
    total on the scale, where that was read. The same part twice in one cup: the masses add up. `scale`: which one.
    `timed` as `Done`'s. `in_before_g`: how much of the part was in already for who asked for this one, None where
    nobody knew: where more was in, two screens told one pour (decision 66).
    """

    cup: CupRef
    part: PartKind
    target_g: float
    mass_g: float
    reads_g: float | None = None
    scale: str = ""
    lot: LotId | None = None
    timed: bool = True
    in_before_g: float | None = None


@dataclass(frozen=True, slots=True)
class Poured(Body):
    """The cup is on the work: laid or poured."""

    cup: CupRef


@dataclass(frozen=True, slots=True)
class Divided(Body):
    """What is in a cup, stirred, was parted in equal shares between it and clean cups, before anything reacted: what a
    part that was poured over asks for where one cup does not hold all. `into`: the fillings of the clean ones. No
    weighing is told twice by it, so that a lot's use stays what was weighed."""

    cup: CupRef
    into: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class WentOn(Body):
    """A part was poured over, and the cup goes on so: what still goes in follows what is in. Whoever stands at the run
    is not asked about that pour again."""

    cup: CupRef


@dataclass(frozen=True, slots=True)
class Gelled(Body):
    """The cup is past use, unused; a new filling takes its place. `used`: the share of it that is on the work."""

    cup: CupRef
    used: float = 0.0


@dataclass(frozen=True, slots=True)
class CupTemperature(Body):
    """The mix in a cup."""

    cup: CupRef
    temperature_c: float


@dataclass(frozen=True, slots=True)
class ShopAir(Body):
    """The shop's air; `step`, `turn`: in whose box it was written, where it was one. `timed` as `Done`'s: one that is
    not counts in no wait."""

    temperature_c: float
    humidity_pct: float | None = None
    step: StepId = NOWHERE
    turn: int = 0
    timed: bool = True


@dataclass(frozen=True, slots=True)
class Gauged(Body):
    """A coat's thickness at some places."""

    coat: CoatId
    places_mm: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class ScaleChecked(Body):
    """A known weight on the scale."""

    scale: str
    weight_g: float
    reads_g: float


@dataclass(frozen=True, slots=True)
class CastMeasured(Body):
    """A cast that is out of the mold."""

    turn: int
    mass_g: float | None = None
    height_mm: float | None = None


@dataclass(frozen=True, slots=True)
class BoxWritten(Body):
    """What was written in a box of the sheet that has no event of its own; `box`: the key of its sentence."""

    step: StepId
    box: str
    text: str
    turn: int = 0


class Mishap(StrEnum):
    """What goes wrong in this trade: its own words."""

    BUBBLES = "bubbles or unfilled tips"
    BONDED = "rubber bonded"
    SOFT = "sticky or soft cure"
    RAN_SHORT = "ran short"
    LOCKED = "shell locked on"
    FOAMED = "moisture foam"
    TORN = "mold torn"
    GELLED_EARLY = "gelled before it was poured"
    ORIGINAL_HURT = "original damaged"
    LEAKED = "leak at flange or seam"
    NOT_SEATED = "glove does not reseat"
    UNEVEN = "uneven, sagged or thick coat"
    POWDER_SETTLED = "powder clumped, settled or starved"
    SIZE_DRIFTED = "size drift"
    SEAM_OFF = "seam mis-registered"
    OTHER = "something else"


@dataclass(frozen=True, slots=True)
class Problem(Body):
    """Something went wrong."""

    what: Mishap
    text: str = ""
    step: StepId = NOWHERE
    turn: int = 0
    cup: CupRef | None = None
