"""What is measured or seen beside the work: a note, what went wrong, air, thickness, a cup's heat, a scale."""

from __future__ import annotations

from moldwright.bench.cup_now import CupNow
from moldwright.bench.scale_drift import ScaleDrift, scale_drifts
from moldwright.errors import InputRefused
from moldwright.log.any_events import Attached, Noted
from moldwright.log.ids import FileHash
from moldwright.log.run_events import CupTemperature, Gauged, Gelled, Mishap, Problem, ScaleChecked
from moldwright.plan.ids import NOWHERE
from moldwright.records.runs.boxes import air_of
from moldwright.records.runs.doing.at_run import AtRun, act_in_hand
from moldwright.records.runs.next_act import NextAct
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.typed import lengths, typed
from moldwright.records.runs.write import Logged
from moldwright.text.shown import short
from moldwright.units.system import UnitSystem


def note(at: AtRun, next_: NextAct, text: str) -> Logged:
    """A note on the step in hand.

    Parameters
    ----------
    at : the bench.
    next_ : what is next.
    text : as it was typed.
    """
    act = act_in_hand(next_)
    return at.write(Noted(text, act.step, act.turn))


def attach(at: AtRun, next_: NextAct, file: FileHash, text: str = "") -> Logged:
    """A kept photo belongs to the step in hand.

    Parameters
    ----------
    at : the bench.
    next_ : what is next.
    file : of the kept file.
    text : what it shows.
    """
    act = act_in_hand(next_)
    return at.write(Attached(file, text, act.step, act.turn))


def problem(at: AtRun, next_: NextAct, number: str, text: str = "") -> Logged:
    """Something went wrong at the step and the cup in hand.

    Parameters
    ----------
    at : the bench.
    next_ : what is next.
    number : which of `Mishap`, from 1.
    text : a line about it.

    Raises InputRefused ("no-such-choice").
    """
    mishaps = tuple(Mishap)
    if not (number.isdecimal() and len(number) < 4) or not 1 <= int(number) <= len(mishaps):
        raise InputRefused("no-such-choice", short(number), f"1 to {len(mishaps)}", "", "p shows the list again.")
    act, cup = act_in_hand(next_), next_.cup
    what = mishaps[int(number) - 1]
    return at.write(Problem(what, text.strip(), act.step, act.turn, None if cup is None else cup.ref))


def air(at: AtRun, text: str) -> Logged:
    """The shop's air.

    Parameters
    ----------
    at : the bench.
    text : "24.5", "24.5 45 %".
    """
    return at.write(air_of(text, at.run.plan.units, NOWHERE))


def gauge(at: AtRun, next_: NextAct, text: str) -> Logged:
    """The thickness of the coat in hand at some places.

    Parameters
    ----------
    at : the bench.
    next_ : what is next.
    text : "1.2 1.6".

    Raises InputRefused ("no-coat").
    """
    coat = next_.act.step.coat if next_.act is not None else None
    if coat is None:
        raise InputRefused("no-coat", short(text), "a step of a coat", "", "Turn to the coat's step first: /NUMBER.")
    return at.write(Gauged(coat, lengths(text, at.run.plan.units, "thickness")))


def cup_in_hand(run: OpenRun, next_: NextAct) -> CupNow:
    """The cup in hand, else the first whose clock runs.

    Parameters
    ----------
    run : as it stands.
    next_ : what is next.

    Raises InputRefused ("no-cup").
    """
    cups = [next_.cup, *run.state.running]
    found = next((cup for cup in cups if cup is not None), None)
    if found is None:
        raise InputRefused("no-cup", "no cup in hand", "a cup", "", "Turn to the step that mixes it: /NUMBER.")
    return found


def cup_temperature(at: AtRun, cup: CupNow, text: str) -> Logged:
    """The mix in a cup.

    Parameters
    ----------
    at : the bench.
    cup : which.
    text : "31", "88 F".
    """
    return at.write(CupTemperature(cup.ref, typed(text, "temperature", at.run.plan.units, "the cup")))


def gelled(at: AtRun, cup: CupNow, used: float = 0.0) -> Logged:
    """A cup is past use.

    Parameters
    ----------
    at : the bench.
    cup : which.
    used : the share of it that is on the work.
    """
    return at.write(Gelled(cup.ref, used))


def scale_checked(text: str, units: UnitSystem) -> ScaleChecked:
    """A known weight and what the scale shows for it.

    Parameters
    ----------
    text : "100 99.8".
    units : of bare numbers.

    Raises InputRefused ("scale-check-unclear").
    """
    parts = text.replace(";", " ").split()
    if len(parts) != 2:
        remedy = "k 100 99.8: the weight, what it shows."
        raise InputRefused("scale-check-unclear", short(text), "two figures", "", remedy)
    weight, reads = (typed(part, "mass", units, "scale check") for part in parts)
    return ScaleChecked("", weight, reads)


def scale_check(at: AtRun, text: str) -> tuple[Logged, ScaleDrift | None]:
    """Check a scale; what it has weighed since it was last right, where it is off.

    Parameters
    ----------
    at : the bench.
    text : as `scale_checked`.
    """
    logged = at.write(scale_checked(text, at.run.plan.units))
    found = scale_drifts(logged.run.plan, logged.run.events)
    newest = max(event.at_ms for event in logged.run.events)
    return logged, found[-1] if found and found[-1].found_ms == newest else None
