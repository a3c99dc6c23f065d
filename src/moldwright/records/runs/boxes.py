"""The boxes that a step asks to write in, and the event that each of them becomes."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from moldwright.bench.boxes import BoxOf, box_key, box_of
from moldwright.log.event import Body, Event
from moldwright.log.run_events import BoxWritten, CastMeasured, Gauged, ShopAir
from moldwright.log.standing import standing
from moldwright.plan.ids import CoatId, StepId
from moldwright.plan.lines import Line
from moldwright.plan.steps import StepPlan
from moldwright.records.runs.typed import lengths, typed
from moldwright.units import show_length, show_mass, show_temperature
from moldwright.units.system import UnitSystem

_HUMIDITY = re.compile(r"(\d+(?:[.,]\d+)?)\s*%")


@dataclass(frozen=True, slots=True)
class SheetBox:
    """One box: of which step and cast, by which key it is known, what stands above it."""

    step: StepId
    turn: int
    key: str
    line: Line
    kind: BoxOf
    coat: CoatId | None = None

    @property
    def id(self) -> BoxId:
        """By what it is known."""
        return self.step, self.turn, self.key


BoxId = tuple[StepId, int, str]
"""A box by its step, the cast and the key of its sentence."""


def boxes_of(step: StepPlan, turn: int = 0) -> tuple[SheetBox, ...]:
    """The boxes of a step in their order.

    Parameters
    ----------
    step : the step.
    turn : of which cast, 0 for what is done once.
    """
    told = ((box_key(line, number), line) for number, line in enumerate(step.write, start=1))
    return tuple(_box(step, turn, key, line) for key, line in told)


def _box(step: StepPlan, turn: int, key: str, line: Line) -> SheetBox:
    kind = box_of(line)
    of_cast = kind in (BoxOf.CAST_MASS, BoxOf.CAST_HEIGHT, BoxOf.NUMBER)
    fits = (turn > 0 or not of_cast) and (step.coat is not None or kind is not BoxOf.THICKNESS)
    return SheetBox(step.id, turn, key, line, kind if fits else BoxOf.WRITTEN, step.coat)


def body_of_box(box: SheetBox, text: str, units: UnitSystem) -> Body:
    """What was written in a box, as its own event.

    Parameters
    ----------
    box : which.
    text : what stands in it.
    units : in which bare numbers are.

    Raises InputRefused where it is no such quantity.
    """
    match box.kind:
        case BoxOf.THICKNESS:
            assert box.coat is not None
            return Gauged(box.coat, lengths(text, units, "thickness"))
        case BoxOf.AIR:
            return air_of(text, units, box.step, box.turn)
        case BoxOf.CAST_MASS:
            return CastMeasured(box.turn, mass_g=typed(text, "mass", units, "the cast weighs"))
        case BoxOf.CAST_HEIGHT:
            return CastMeasured(box.turn, height_mm=typed(text, "length", units, "height"))
        case _:
            return BoxWritten(box.step, box.key, text.strip(), box.turn)


def air_of(text: str, units: UnitSystem, step: StepId, turn: int = 0) -> ShopAir:
    """The shop's air: a temperature, and perhaps a humidity in percent behind it.

    Parameters
    ----------
    text : as it was typed: "24.5", "76 F 45 %".
    units : in which a bare temperature is.
    step, turn : where it was written.
    """
    humid = _HUMIDITY.search(text)
    told = text[: humid.start()] if humid else text
    temperature = typed(told.strip(" ,;"), "temperature", units, "the shop's temperature")
    percent = float(humid[1].replace(",", ".")) if humid else None
    return ShopAir(temperature, percent, step, turn)


def written_in(box: SheetBox, events: Iterable[Event]) -> tuple[Event, ...]:
    """What the log holds of a box, the last one last.

    Parameters
    ----------
    box : which.
    events : of the run.
    """
    return tuple(event for event in standing(events) if _is_of(box, event.body))


def _is_of(box: SheetBox, body: Body) -> bool:
    match body:
        case Gauged(coat=coat):
            return box.kind is BoxOf.THICKNESS and coat == box.coat
        case ShopAir(step=step, turn=turn):
            return box.kind is BoxOf.AIR and (step, turn) == (box.step, box.turn)
        case CastMeasured(turn=turn, mass_g=mass, height_mm=height):
            told = mass if box.kind is BoxOf.CAST_MASS else height if box.kind is BoxOf.CAST_HEIGHT else None
            return turn == box.turn and told is not None
        case BoxWritten(step=step, box=key, turn=turn):
            return (step, key, turn) == (box.step, box.key, box.turn)
        case _:
            return False


def said_in_box(body: Body, units: UnitSystem) -> str:
    """What an event says, as it would be written in its box.

    Parameters
    ----------
    body : what happened.
    units : the reader's.
    """
    match body:
        case Gauged(places_mm=places):
            return ", ".join(show_length(each, units) for each in places)
        case ShopAir(temperature_c=temperature, humidity_pct=humidity):
            return show_temperature(temperature, units) + (f", {humidity:.0f} %" if humidity is not None else "")
        case CastMeasured(mass_g=mass, height_mm=height):
            told = [show_mass(mass, units)] if mass is not None else []
            return ", ".join([*told, *([show_length(height, units)] if height is not None else [])])
        case BoxWritten(text=text):
            return text
        case _:
            return ""
