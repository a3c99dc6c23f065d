"""What a screen writes down as it was typed: the store reads it as the terminal's bench does, always to the same event.

A screen need not know units, nor how a mass follows from what the scale shows: it sends what was typed with the figures
that it was asked with.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from moldwright.bench.boxes import box_key
from moldwright.errors import InputRefused
from moldwright.log.event import Body
from moldwright.log.ids import EventId, LotId
from moldwright.log.run_events import CupRef, CupTemperature, Gauged, Gelled, ScaleChecked, Weighed
from moldwright.plan.ids import NOWHERE, CoatId, StepId
from moldwright.plan.mixes import PartKind
from moldwright.plan.plan import Plan
from moldwright.records.runs.boxes import air_of, body_of_box, boxes_of
from moldwright.records.runs.typed import lengths, typed
from moldwright.text.shown import short
from moldwright.units import show_mass
from moldwright.units.system import UnitSystem


@dataclass(frozen=True, slots=True)
class SaidReading(Body):
    """The scale reads `reads` with the part in; it read `before_g`, and would read `without_g` with none of it.
    `units`: of a bare number."""

    cup: CupRef
    part: PartKind
    target_g: float
    before_g: float
    reads: str
    units: UnitSystem
    lot: LotId | None = None
    without_g: float | None = None


@dataclass(frozen=True, slots=True)
class SaidMass(Body):
    """So much of the part went in alone."""

    cup: CupRef
    part: PartKind
    target_g: float
    mass: str
    units: UnitSystem
    lot: LotId | None = None
    in_before_g: float | None = None


@dataclass(frozen=True, slots=True)
class SaidVolume(Body):
    """So much of the part went in by volume, where `add_ml` would have been `target_g`."""

    cup: CupRef
    part: PartKind
    target_g: float
    add_ml: float
    volume: str
    units: UnitSystem
    lot: LotId | None = None
    in_before_g: float | None = None


@dataclass(frozen=True, slots=True)
class SaidBox(Body):
    """What was written in a box of a step; `box`: its key."""

    step: StepId
    box: str
    text: str
    units: UnitSystem
    turn: int = 0


@dataclass(frozen=True, slots=True)
class SaidAir(Body):
    """The shop's air, perhaps with its humidity."""

    air: str
    units: UnitSystem


@dataclass(frozen=True, slots=True)
class SaidGauge(Body):
    """A coat's thickness at some places."""

    coat: CoatId
    places: str
    units: UnitSystem


@dataclass(frozen=True, slots=True)
class SaidHeat(Body):
    """The temperature of the mix in a cup."""

    cup: CupRef
    temperature: str
    units: UnitSystem


@dataclass(frozen=True, slots=True)
class SaidScale(Body):
    """A known weight, and what the scale shows for it."""

    weight: str
    reads: str
    units: UnitSystem


@dataclass(frozen=True, slots=True)
class SaidGelled(Body):
    """A cup is past use; `used`: how much of it is on the work, in percent, "" for none."""

    cup: CupRef
    used: str = ""


@dataclass(frozen=True, slots=True)
class SaidAgain(Body):
    """What an entry says through which the desk drew a line stands after all, from when it was told."""

    event: EventId


SAID: Mapping[str, type[Body]] = MappingProxyType(
    {
        "said-reading": SaidReading,
        "said-mass": SaidMass,
        "said-volume": SaidVolume,
        "said-box": SaidBox,
        "said-air": SaidAir,
        "said-gauge": SaidGauge,
        "said-heat": SaidHeat,
        "said-scale": SaidScale,
        "said-gelled": SaidGelled,
        "said-again": SaidAgain,
    }
)
"""By the names under which a screen sends them; none of them stands in the log."""
SAID_NAMES: Mapping[type[Body], str] = MappingProxyType({kind: name for name, kind in SAID.items()})


def meant_by(plan: Plan, said: Body) -> Body:  # noqa: PLR0911
    """The event that was meant.

    Parameters
    ----------
    plan : by which the run goes.
    said : as it was typed; what is an event already is given back.

    Raises InputRefused where it is no such quantity, "reads-less-than-before", "nothing-to-add", "no-box".
    """
    match said:
        case SaidReading():
            return _reading(plan, said)
        case SaidMass(cup, part, target_g, mass, units, lot, before_g):
            mass_g = typed(mass, "mass", units, "what went in")
            return Weighed(cup, part, target_g, mass_g, None, "", lot, in_before_g=before_g)
        case SaidVolume():
            return _volume(said)
        case SaidBox():
            return _box(plan, said)
        case SaidAir(air, units):
            return air_of(air, units, NOWHERE)
        case SaidGauge(coat, places, units):
            return Gauged(coat, lengths(places, units, "thickness"))
        case SaidHeat(cup, temperature, units):
            return CupTemperature(cup, typed(temperature, "temperature", units, "the cup"))
        case SaidScale(weight, reads, units):
            return ScaleChecked("", *(typed(each, "mass", units, "scale check") for each in (weight, reads)))
        case SaidGelled(cup, used):
            return Gelled(cup, share_said(used))
        case _:
            return said


def _reading(plan: Plan, said: SaidReading) -> Weighed:
    reads_g = typed(said.reads, "mass", said.units, "the scale reads")
    mass_g = round(reads_g - said.before_g, 6)
    if mass_g < 0.0:
        before, shown = (show_mass(each, said.units, plan.scale_g) for each in (said.before_g, reads_g))
        remedy = "Type all that the scale shows. If it was zeroed between, type what went in alone."
        raise InputRefused("reads-less-than-before", shown, before, "", remedy)
    in_before_g = None if said.without_g is None else round(said.before_g - said.without_g, 6)
    return Weighed(said.cup, said.part, said.target_g, mass_g, reads_g, "", said.lot, in_before_g=in_before_g)


def _volume(said: SaidVolume) -> Weighed:
    volume_ml = typed(said.volume, "volume", said.units, "what went in")
    if said.add_ml <= 0.0:
        remedy = "Look at the step once more."
        raise InputRefused("nothing-to-add", f"{volume_ml:g} ml", "a part that is still to come", "", remedy)
    mass_g = round(said.target_g * volume_ml / said.add_ml, 6)
    return Weighed(said.cup, said.part, said.target_g, mass_g, None, "", said.lot, in_before_g=said.in_before_g)


def _box(plan: Plan, said: SaidBox) -> Body:
    steps = (step for step in plan.steps if step.id == said.step)
    keys = {box_key(line, number) for step in steps for number, line in enumerate(step.write, start=1)}
    if said.box not in keys:
        raise InputRefused("no-box", short(said.box), "a box of this step", "", "Take one that the step shows.")
    step = next(each for each in plan.steps if each.id == said.step)
    box = next(each for each in boxes_of(step, said.turn) if each.key == said.box)
    return body_of_box(box, said.text, said.units)


def share_said(text: str) -> float:
    """How much of a cup is on the work: a share in percent, as it was typed.

    Parameters
    ----------
    text : "", "50 %", "50".

    Raises InputRefused ("share-unclear").

    >>> share_said(""), share_said("50 %"), share_said("12,5")
    (0.0, 0.5, 0.125)
    """
    plain = text.strip().removesuffix("%").strip().replace(",", ".")
    if not plain:
        return 0.0
    if len(plain) < 10 and plain.replace(".", "", 1).isdecimal() and float(plain) <= 100.0:
        return float(plain) / 100.0
    raise InputRefused("share-unclear", short(text), "0 to 100 %", "", "x, or x 50 %: half is on the work.")
