"""An entry of a run in a few words, as the bench says it back and the log shows it."""

from __future__ import annotations

from moldwright.bench.acts import Act
from moldwright.log.any_events import Attached, Noted, Undone
from moldwright.log.codes import short_code
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
    MoldRegistered,
    Poured,
    Problem,
    Replanned,
    ScaleChecked,
    ShopAir,
    Started,
    Weighed,
)
from moldwright.plan.mixes import PartKind
from moldwright.records.runs.boxes import said_in_box
from moldwright.sheets.bench_words import BenchWords
from moldwright.sheets.need_words import part_name
from moldwright.sheets.words import reads_nothing
from moldwright.text.harmless import harmless
from moldwright.units import show_temperature


def said_of(words: BenchWords, body: Body) -> str:  # noqa: PLR0911, PLR0912
    """What an entry says.

    Parameters
    ----------
    words : of the run's plan.
    body : what happened.
    """
    match body:
        case Weighed():
            return _weighed(words, body)
        case Poured(cup=cup):
            return f"{words.cup(cup)} is on the work"
        case Gelled(cup=cup, used=used):
            return f"{words.cup(cup)} is past use" + (f", {used:.0%} of it on the work" if used else "")
        case Divided(cup=cup, into=into):
            return f"{words.cup(cup)} became {len(into) + 1} cups"
        case CupTemperature(cup=cup, temperature_c=temperature):
            return f"{words.cup(cup)} has {show_temperature(temperature, words.plan.units)}"
        case Begun(step=step, turn=turn):
            return f"{words.act(Act(step, turn))} is in hand"
        case Done(step=step, turn=turn):
            return f"{words.act(Act(step, turn))} is done"
        case LeftOut(step=step, turn=turn, why=why):
            return f"{words.act(Act(step, turn))} is left out: {harmless(why)}"
        case Gauged(coat=coat):
            return f"{harmless(coat)} by the gauge: {said_in_box(body, words.plan.units)}"
        case ShopAir():
            return f"the shop has {said_in_box(body, words.plan.units)}"
        case ScaleChecked(weight_g=weight, reads_g=reads):
            return f"the scale shows {words.mass(reads)} for {words.mass(weight)}"
        case CastMeasured(turn=turn):
            return f"cast {turn}: {said_in_box(body, words.plan.units)}"
        case BoxWritten(text=text):
            return harmless(text)
        case _:
            return _rest(words, body)


def _rest(words: BenchWords, body: Body) -> str:  # noqa: PLR0911
    match body:
        case Problem(what=what, text=text):
            return what.value + (f": {harmless(text)}" if text else "")
        case Noted(text=text):
            return f'"{harmless(text)}"'
        case Attached(text=text):
            return "a file" + (f": {harmless(text)}" if text else "")
        case Started(name=name, casts=casts):
            return f"the run of {harmless(name)} began, for {casts} casts"
        case Replanned():
            return "it goes on by a new plan"
        case MoldRegistered(mold=mold):
            return f"its mold is in the register, {short_code(mold)}"
        case Ended(why=why):
            return "the run is over" + (f": {harmless(why)}" if why else "")
        case Undone(event=event, why=why):
            return f"struck out {short_code(event)}" + (f": {harmless(why)}" if why else "")
        case _:
            return "an entry that this version does not know"


def _weighed(words: BenchWords, body: Weighed) -> str:
    name, reads = _part(words, body.cup, body.part), body.reads_g
    told = f"{words.cup(body.cup)}: "
    if body.mass_g < 0.0:
        told += f"{words.mass(-body.mass_g)} of {name} lifted out"
    else:
        shown = words.mass(body.mass_g)
        told += f"{name} {'a trace' if body.mass_g > 0.0 and reads_nothing(shown) else shown}"
    return told if reads is None else f"{told}, scale {words.mass(reads)}"


def _part(words: BenchWords, cup: CupRef, kind: PartKind) -> str:
    parts = (part for mix in words.plan.mixes if mix.id == cup.mix for part in mix.parts)
    return next((harmless(part_name(part)) for part in parts if part.kind == kind), kind.value)
