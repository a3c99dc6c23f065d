"""What may be written of a run: about its own acts, cups and coats, in numbers that a bench knows."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Set
from dataclasses import dataclass
from math import isfinite

from moldwright.bench.acts import Act
from moldwright.errors import InputRefused
from moldwright.log.any_events import Attached, Noted, Undone
from moldwright.log.event import Body
from moldwright.log.run_events import (
    Begun,
    BoxWritten,
    CastMeasured,
    CupRef,
    CupTemperature,
    Divided,
    Done,
    Ended,
    Gauged,
    Gelled,
    LeftOut,
    Poured,
    Problem,
    ScaleChecked,
    ShopAir,
    Weighed,
    WentOn,
)
from moldwright.plan.ids import NOWHERE, CoatId, MixId, StepId
from moldwright.plan.mixes import PartKind
from moldwright.records.runs.opened import OpenRun
from moldwright.records.told import line_told
from moldwright.words.speaker import say

MOST_G = 1e6
MOST_MM = 1e5
COLDEST_C, HOTTEST_C = -40.0, 250.0
"""What a bench may show, from the coldest shed to the hottest cup; our own."""
LONGEST = 2000
"""Letters of a note; our own."""
MOST_FILLINGS = 100


@dataclass(frozen=True, slots=True)
class RunBounds:
    """What there is of a run: its acts, its cups with what goes into them, its coats, how many casts."""

    run: OpenRun
    acts: Set[Act]
    cups: Set[tuple[MixId, int]]
    parts: Mapping[MixId, tuple[PartKind, ...]]
    coats: tuple[CoatId, ...]
    casts: int


def bounds_of(run: OpenRun) -> RunBounds:
    """What there is of a run; a cup of an act that is left out too.

    Parameters
    ----------
    run : as it stands.
    """
    acts = run.state.acts
    return RunBounds(
        run,
        {each.act for each in acts},
        {(mix, each.act.turn) for each in acts for mix in each.step.mixes},
        {mix.id: tuple(part.kind for part in mix.parts) for mix in run.plan.mixes},
        tuple(coat.id for coat in run.plan.glove.coats),
        max((each.act.turn for each in acts), default=0),
    )


def refuse_unless_of(run: OpenRun, body: Body) -> None:
    """Refuse what cannot be of this run; what came from another bench is kept as it is, and told as a finding.

    Parameters
    ----------
    run : which.
    body : what is to be written.

    Raises as `refuse_outside`.
    """
    refuse_outside(bounds_of(run), body)


def refuse_outside(bounds: RunBounds, body: Body) -> None:
    """The same, of a run of which many entries are looked at.

    Parameters
    ----------
    bounds : what there is of the run.
    body : what is to be written.

    Raises InputRefused ("act-not-in-plan", "cup-not-in-plan", "part-not-in-cup", "coat-not-in-plan",
    "figure-out-of-range", "text-unusable").
    """
    _figures(body)
    _texts(body)
    match body:
        case Begun() | Done() | LeftOut() | BoxWritten():
            _act(bounds, Act(body.step, body.turn))
        case Noted() | Attached() | Problem() | ShopAir() if body.step != NOWHERE:
            _act(bounds, Act(body.step, body.turn))
        case Weighed() | Poured() | Gelled() | CupTemperature() | Divided() | WentOn():
            _cup(bounds, body)
        case Gauged(coat=coat) if coat not in bounds.coats:
            told = ", ".join(bounds.coats)
            raise InputRefused("coat-not-in-plan", coat, told, "", "Write one of the coats of this plan.")
        case CastMeasured(turn=turn):
            _turn(bounds, turn)
        case _:
            pass
    if isinstance(body, Problem) and body.cup is not None:
        _known_cup(bounds, body.cup)


def _act(bounds: RunBounds, act: Act) -> None:
    if act not in bounds.acts:
        told = f"{_number(bounds.run, act.step)}{f' of cast {act.turn}' if act.turn else ''}"
        most = max(bounds.casts, 1)
        remedy = say("Write a step's number as it is printed; of a cast with its number: 42/1 to 42/{most}.", most=most)
        raise InputRefused("act-not-in-plan", told, "a step of this run", "", remedy)


def _number(run: OpenRun, step: StepId) -> str:
    numbers = {each.id: str(number) for number, each in enumerate(run.plan.steps, start=1)}
    return f"step {numbers[step]}" if step in numbers else step


def _cup(bounds: RunBounds, body: Weighed | Poured | Gelled | CupTemperature | Divided | WentOn) -> None:
    _known_cup(bounds, body.cup, body.into if isinstance(body, Divided) else ())
    parts = bounds.parts[body.cup.mix]
    if isinstance(body, Weighed) and body.part not in parts:
        told = ", ".join(parts)
        raise InputRefused(
            "part-not-in-cup", body.part, told, "", say("{mix} takes {told}.", mix=body.cup.mix, told=told)
        )


def _known_cup(bounds: RunBounds, cup: CupRef, into: tuple[int, ...] = ()) -> None:
    numbers = (cup.filling, *into)
    if (cup.mix, cup.turn) not in bounds.cups or not all(1 <= n <= MOST_FILLINGS for n in numbers):
        raise InputRefused("cup-not-in-plan", _cup_told(cup), "a cup of this run", "", "Take one that is shown.")


def _cup_told(cup: CupRef) -> str:
    return f"{cup.mix}{f' of cast {cup.turn}' if cup.turn else ''}{f', filling {cup.filling}' * (cup.filling > 1)}"


def _turn(bounds: RunBounds, turn: int) -> None:
    if not 1 <= turn <= bounds.casts:
        told = f"1 to {bounds.casts} of this run"
        raise InputRefused("cast-unknown", f"cast {turn}", told, "", "Casts count from 1.")


def _figures(body: Body) -> None:
    for figure, low, high, unit in _bounded(body):
        if not (isfinite(figure) and low <= figure <= high):
            remedy = "Write it as the instrument shows it, with its unit."
            raise InputRefused("figure-out-of-range", figure, f"{low:g} to {high:g}", unit, remedy)


def _bounded(body: Body) -> Iterator[tuple[float, float, float, str]]:
    match body:
        case Weighed(target_g=target, mass_g=mass, reads_g=reads, in_before_g=before):
            yield from ((each, -MOST_G, MOST_G, "g") for each in (target, mass, reads or 0.0, before or 0.0))
        case Gelled(used=used):
            yield used, 0.0, 1.0, "of the cup"
        case CupTemperature(temperature_c=temperature):
            yield temperature, COLDEST_C, HOTTEST_C, "°C"
        case ShopAir(temperature_c=temperature, humidity_pct=humidity):
            yield temperature, COLDEST_C, 60.0, "°C"
            yield humidity or 0.0, 0.0, 100.0, "%"
        case Gauged(places_mm=places):
            yield float(len(places)), 1.0, 100.0, "places"
            yield from ((each, 0.0, 200.0, "mm") for each in places)
        case ScaleChecked(weight_g=weight, reads_g=reads):
            yield weight, 1e-3, MOST_G, "g"
            yield reads, -MOST_G, MOST_G, "g"
        case CastMeasured(mass_g=mass, height_mm=height):
            yield mass or 0.0, 0.0, MOST_G, "g"
            yield height or 0.0, 0.0, MOST_MM, "mm"
        case _:
            pass


def _texts(body: Body) -> None:
    match body:
        case Noted(text=text):
            line_told(text, "a note", longest=LONGEST)
        case LeftOut(why=why):
            line_told(why, "the reason")
        case BoxWritten(text=text):
            line_told(text, "what stands in the box")
        case Problem(text=text) | Attached(text=text):
            line_told(text, "a line about it", may_lack=True, longest=LONGEST)
        case Undone(why=why) | Ended(why=why):
            line_told(why, "a reason", may_lack=True)
        case Weighed(scale=scale) | ScaleChecked(scale=scale):
            line_told(scale, "the scale's name", may_lack=True)
        case _:
            pass
