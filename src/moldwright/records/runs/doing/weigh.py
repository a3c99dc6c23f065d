"""A part goes into a cup: as it was asked for, as the scale reads, by its volume, or by its own mass."""

from __future__ import annotations

from dataclasses import dataclass, replace

from moldwright.bench.cup_now import CupNow, PartNow
from moldwright.errors import InputRefused
from moldwright.log.ids import LotId
from moldwright.log.run_events import CupRef, Weighed
from moldwright.plan.mixes import MeasuredBy, PartKind
from moldwright.records.runs.doing.at_run import AtRun
from moldwright.records.runs.next_act import as_read, as_told
from moldwright.records.runs.typed import typed
from moldwright.records.runs.write import Logged
from moldwright.units import show_mass
from moldwright.units.system import UnitSystem

NOTHING_G = 1e-9


@dataclass(frozen=True, slots=True)
class PouredOver:
    """More of a part is in than was asked for and may be; `target_g`: what was to be in of it by then [g]."""

    cup: CupRef
    part: PartKind
    target_g: float


@dataclass(frozen=True, slots=True)
class Weighing:
    """What became of a weighing; `over`: None where it is not more than was asked for."""

    logged: Logged
    body: Weighed
    over: PouredOver | None


@dataclass(frozen=True, slots=True)
class ReadsIn:
    """In which units somebody reads, and the step of the scale [g], in whose digits a refusal tells a mass."""

    units: UnitSystem
    scale_g: float


def weigh(at: AtRun, cup: CupNow, part: PartNow, reading: str | None = None, lot: LotId | None = None) -> Weighing:
    """Write down that a part is in.

    Parameters
    ----------
    at : the bench.
    cup, part : what was asked for.
    reading : what was typed, None: exactly as it was asked for.
    lot : that it was taken from.

    Raises as `weighed` and `records.runs.write.log_all`.
    """
    told = weighed(cup, part, reading, ReadsIn(at.run.plan.units, at.run.plan.scale_g))
    body = replace(told, lot=lot)
    logged = at.write(body)
    now = logged.run.state.cup(cup.ref)
    over = now is not None and went_over(now, part)
    return Weighing(logged, body, PouredOver(cup.ref, part.kind, part.target_g) if over else None)


def weighed(cup: CupNow, part: PartNow, reading: str | None, reader: ReadsIn) -> Weighed:
    """What a typed reading says.

    Parameters
    ----------
    cup, part : what was asked for.
    reading : "82.8" is all that the scale shows, "+3.2" what went in alone, "1.5 ml" what a syringe or a mark shows;
        None: exactly as it was asked for.
    reader : whose units bare numbers have.

    Raises InputRefused ("nothing-to-add", "reads-less-than-before", and what is wrong with the quantity).
    """
    if reading is None:
        return as_told(cup, part)
    if part.by is MeasuredBy.MARKS or (part.by is MeasuredBy.SYRINGE and _is_ml(reading)):
        return measured(cup, part, typed(reading, "volume", reader.units, "what went in"))
    if reading.startswith("+"):
        mass_g = typed(reading[1:], "mass", reader.units, "what went in")
        return Weighed(cup.ref, part.kind, part.add_g, mass_g, in_before_g=part.in_g)
    return read(cup, part, typed(reading, "mass", reader.units, "the scale reads"), reader)


def _is_ml(reading: str) -> bool:
    return reading.strip().casefold().endswith(("ml", "l", "fl oz"))


def measured(cup: CupNow, part: PartNow, volume_ml: float) -> Weighed:
    """A part by its volume.

    Parameters
    ----------
    cup, part : what was asked for.
    volume_ml : that went in [ml].

    Raises InputRefused ("nothing-to-add").
    """
    if part.add_ml <= 0.0:
        told = f"{volume_ml:g} ml"
        raise InputRefused("nothing-to-add", told, "a part that is still to come", "", "Look at the step (+).")
    mass_g = round(part.add_g * volume_ml / part.add_ml, 6)
    return Weighed(cup.ref, part.kind, part.add_g, mass_g, in_before_g=part.in_g)


def read(cup: CupNow, part: PartNow, reads_g: float, reader: ReadsIn) -> Weighed:
    """A part by what the scale shows with it.

    Parameters
    ----------
    cup, part : what was asked for.
    reads_g : the running total [g].
    reader : in whose units a refusal tells it.

    Raises InputRefused ("reads-less-than-before").
    """
    told = as_read(cup, part, reads_g)
    if told.mass_g < 0.0:
        before, shown = (
            show_mass(each, reader.units, reader.scale_g) for each in (part.reads_g - part.add_g, told.reads_g or 0.0)
        )
        remedy = "Type all that the scale shows. Was it zeroed between? +3.2: so much went in. Taken out: see r."
        raise InputRefused("reads-less-than-before", shown, before, "", remedy)
    return told


def went_over(now: CupNow, part: PartNow) -> bool:
    """Whether more of a part is in than was asked for and may be.

    Parameters
    ----------
    now : the cup as it stands after it.
    part : as it was asked for.
    """
    there = next(each for each in now.parts if each.kind == part.kind).in_g
    return not now.settled and there - part.target_g > part.within_g + NOTHING_G
