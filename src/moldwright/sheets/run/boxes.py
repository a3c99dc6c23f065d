"""What stands in the log of each box of the sheets."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import TypeVar

from moldwright.bench.acts import Act
from moldwright.bench.boxes import BoxOf, box_key, box_of
from moldwright.log.event import Body, Event
from moldwright.log.run_events import BoxWritten, CastMeasured, Gauged, Poured, ShopAir
from moldwright.plan.ids import NOWHERE
from moldwright.plan.steps import StepPlan
from moldwright.sheets.run.shown import RunShown, timed, typed_in
from moldwright.units import length_mm, show_length, show_mass, show_temperature
from moldwright.units.system import UnitSystem

B = TypeVar("B", bound=Body)
OLDEST_MS, YOUNGEST_MS = 4 * 3_600_000, 1_800_000
"""A reading of the shop's air that was written in no box tells a step's, so long before and after it [ms]: our own."""

FINE_MM, COARSE_MM = 0.005, 0.05
"""What a gauge, and what a caliper, tells apart [mm]; a coat is gauged, a cast measured: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Filled:
    """What stands in a box; `typed`: it was typed in later; `at`: when it was read, where it was written elsewhere."""

    text: str
    typed: bool = False
    at: str = ""


EMPTY = Filled("")


def boxes(shown: RunShown, step: StepPlan, turn: int) -> tuple[Filled, ...]:
    """What stands in each box of a step, empty ones included, in their order.

    Parameters
    ----------
    shown : the run.
    step : the step.
    turn : of which cast, 0 for what is done once.
    """
    return tuple(box(shown, step, number, turn) for number in range(1, len(step.write) + 1))


def box(shown: RunShown, step: StepPlan, number: int, turn: int) -> Filled:
    """What stands in one box: what was written in it, else what an event of its own tells.

    Parameters
    ----------
    shown : the run.
    step : the step.
    number : which of its boxes, from 1.
    turn : of which cast, 0 for what is done once.
    """
    line = step.write[number - 1]
    key = step.id, box_key(line, number), turn
    written = [(b, e) for b, e in _of(shown, BoxWritten) if (b.step, b.box, b.turn) == key]
    if written:
        return Filled(written[-1][0].text, typed_in(written[-1][1]))
    return _told(shown, step, box_of(line), turn)


def _told(shown: RunShown, step: StepPlan, of: BoxOf, turn: int) -> Filled:
    tell: Mapping[BoxOf, Callable[[], Filled]] = {
        BoxOf.AIR: lambda: _air(shown, step, turn),
        BoxOf.DATE: lambda: _date(shown, Act(step.id, turn)),
        BoxOf.THICKNESS: lambda: _thickness(shown, step),
        BoxOf.POURED: lambda: _poured(shown, step, turn),
        BoxOf.CAST_MASS: lambda: _cast(shown, of, turn),
        BoxOf.CAST_HEIGHT: lambda: _cast(shown, of, turn),
        BoxOf.NUMBER: lambda: Filled(shown.numbers.get(turn, "")),
    }
    return tell[of]() if of in tell else EMPTY


def _of(shown: RunShown, kind: type[B]) -> list[tuple[B, Event]]:
    return [(event.body, event) for event in shown.stands if isinstance(event.body, kind)]


def _any_typed(events: Iterable[Event]) -> bool:
    return any(map(typed_in, events))


def _air(shown: RunShown, step: StepPlan, turn: int) -> Filled:
    """The reading that was written in the step's box, else the one nearest to when it was done."""
    read = _of(shown, ShopAir)
    own = [(air, event) for air, event in read if (air.step, air.turn) == (step.id, turn)]
    if own:
        air, event = own[-1]
        return Filled(air_text(air, shown.plan.units), typed_in(event))
    done_ms = shown.done_ms(Act(step.id, turn))
    if done_ms is None:
        return EMPTY
    near = [
        (abs(event.at_ms - done_ms), event.at_ms, air, event)
        for air, event in read
        if air.step == NOWHERE and timed(air) and -OLDEST_MS <= event.at_ms - done_ms <= YOUNGEST_MS
    ]
    if not near:
        return EMPTY
    _, at_ms, air, event = min(near, key=lambda each: each[:2])
    return Filled(air_text(air, shown.plan.units), typed_in(event), shown.clock(at_ms))


def air_text(air: ShopAir, units: UnitSystem) -> str:
    """The shop's air: "23 °C, 45 %".

    Parameters
    ----------
    air : as it was measured.
    units : the reader's.
    """
    told = show_temperature(air.temperature_c, units)
    return told if air.humidity_pct is None else f"{told}, {air.humidity_pct:.0f} %"


def _date(shown: RunShown, act: Act) -> Filled:
    done_ms = shown.done_ms(act)
    return EMPTY if done_ms is None else Filled(shown.day(done_ms))


def _thickness(shown: RunShown, step: StepPlan) -> Filled:
    """The least and the most of all places at which a coat was gauged."""
    gauged = [(body, event) for body, event in _of(shown, Gauged) if body.coat == step.coat]
    places = [place for body, _ in gauged for place in body.places_mm]
    if not places:
        return EMPTY
    least, most = (length_text(mm, shown.plan.units) for mm in (min(places), max(places)))
    told = most if least == most else f"{least.rpartition(' ')[0]}–{most}"
    counted = f", {len(places)} places" if len(places) > 2 else ""
    return Filled(told + counted, _any_typed(event for _, event in gauged))


def _poured(shown: RunShown, step: StepPlan, turn: int) -> Filled:
    """When the cups of a step came onto the work, the first one first."""
    poured = [e for b, e in _of(shown, Poured) if b.cup.mix in step.mixes and b.cup.turn == turn and timed(b)]
    return Filled(", ".join(dict.fromkeys(shown.clock(e.at_ms) for e in poured)), _any_typed(poured))


def _cast(shown: RunShown, of: BoxOf, turn: int) -> Filled:
    cast = next((each for each in shown.state.casts if each.turn == turn), CastMeasured(turn))
    typed = _any_typed(event for body, event in _of(shown, CastMeasured) if body.turn == turn)
    units = shown.plan.units
    if of is BoxOf.CAST_MASS:
        return EMPTY if cast.mass_g is None else Filled(show_mass(cast.mass_g, units, shown.plan.scale_g), typed)
    return EMPTY if cast.height_mm is None else Filled(length_text(cast.height_mm, units), typed)


def length_text(measured_mm: float, units: UnitSystem) -> str:
    """A length as a rule shows it where that is what was measured, else as a caliper or a gauge does.

    Parameters
    ----------
    measured_mm : length [mm].
    units : the reader's.

    >>> [length_text(mm, UnitSystem.METRIC) for mm in (189.4, 190.0, 0.55)]
    ['189.4 mm', '190 mm', '0.55 mm']
    >>> [length_text(mm, UnitSystem.US) for mm in (7.4375 * 25.4, 7.46 * 25.4, 0.034 * 25.4)]
    ['7 7/16 in', '7.46 in', '0.034 in']
    """
    told, off_mm = show_length(measured_mm, units), FINE_MM if measured_mm < 1.0 else COARSE_MM
    if abs(length_mm(told, "length") - measured_mm) <= off_mm:
        return told
    number, _, unit = show_length(measured_mm, units, off_mm).rpartition(" ")
    return f"{number.rstrip('0').rstrip('.')} {unit}"
