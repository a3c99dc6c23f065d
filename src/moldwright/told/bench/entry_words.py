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
    WentOn,
)
from moldwright.plan.mixes import PartKind
from moldwright.records.runs.boxes import said_in_box
from moldwright.sheets.bench_words import BenchWords
from moldwright.sheets.need_words import part_name
from moldwright.sheets.words import reads_nothing
from moldwright.text.harmless import harmless
from moldwright.units import show_temperature
from moldwright.words.speaker import say, say_count, with_mark


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
            return say("{cup} is on the work", cup=words.cup(cup))
        case Gelled(cup=cup, used=used):
            return say("{cup} is past use", cup=words.cup(cup)) + (
                say(", {used} of it on the work", used=with_mark(f"{used:.0%}")) if used else ""
            )
        case Divided(cup=cup, into=into):
            return say("{cup} became {cups} cups", cup=words.cup(cup), cups=len(into) + 1)
        case WentOn(cup=cup):
            return say("{cup} goes on by new totals", cup=words.cup(cup))
        case CupTemperature(cup=cup, temperature_c=temperature):
            return say(
                "{cup} has {temperature}",
                cup=words.cup(cup),
                temperature=show_temperature(temperature, words.plan.units),
            )
        case Begun(step=step, turn=turn):
            return say("{act} is in hand", act=words.act(Act(step, turn)))
        case Done(step=step, turn=turn):
            return say("{act} is done", act=words.act(Act(step, turn)))
        case LeftOut(step=step, turn=turn, why=why):
            return say("{act} is left out: {why}", act=words.act(Act(step, turn)), why=harmless(why))
        case Gauged(coat=coat):
            return say(
                "{coat} by the gauge: {box}",
                coat=harmless(coat),
                box=said_in_box(body, words.plan.units),
            )
        case ShopAir():
            return say("the shop has {box}", box=said_in_box(body, words.plan.units))
        case ScaleChecked(weight_g=weight, reads_g=reads):
            return say("the scale shows {reads} for {weight}", reads=words.mass(reads), weight=words.mass(weight))
        case CastMeasured(turn=turn):
            return say("cast {turn}: {box}", turn=turn, box=said_in_box(body, words.plan.units))
        case BoxWritten(text=text):
            return harmless(text)
        case _:
            return _rest(words, body)


def _rest(words: BenchWords, body: Body) -> str:  # noqa: PLR0911
    match body:
        case Problem(what=what, text=text):
            return say(what.value) + (f": {harmless(text)}" if text else "")
        case Noted(text=text):
            return f'"{harmless(text)}"'
        case Attached(text=text):
            return say("a file") + (f": {harmless(text)}" if text else "")
        case Started(name=name, casts=casts):
            return say_count(
                "the run of {name} began, for {casts} cast",
                "the run of {name} began, for {casts} casts",
                casts,
                name=harmless(name),
                casts=casts,
            )
        case Replanned():
            return say("it goes on by a new plan")
        case MoldRegistered(mold=mold):
            return say("its mold is in the register, {code}", code=short_code(mold))
        case Ended(why=why):
            return say("the run is over") + (f": {harmless(why)}" if why else "")
        case Undone(event=event, told_by=first) if first is not None:
            codes = {"code": short_code(event), "first": short_code(first)}
            return say("struck out {code}: one pour, already written as {first}", **codes)
        case Undone(event=event, why=why):
            return say("struck out {code}", code=short_code(event)) + (f": {harmless(why)}" if why else "")
        case _:
            return say("an entry that this version does not know")


def _weighed(words: BenchWords, body: Weighed) -> str:
    name, reads = _part(words, body.cup, body.part), body.reads_g
    told = f"{words.cup(body.cup)}: "
    if body.mass_g < 0.0:
        told += say("{mass} of {name} lifted out", mass=words.mass(-body.mass_g), name=name)
    else:
        shown = words.mass(body.mass_g)
        told += f"{name} {'a trace' if body.mass_g > 0.0 and reads_nothing(shown) else shown}"
    return told if reads is None else say("{told}, scale {reads}", told=told, reads=words.mass(reads))


def _part(words: BenchWords, cup: CupRef, kind: PartKind) -> str:
    parts = (part for mix in words.plan.mixes if mix.id == cup.mix for part in mix.parts)
    return next((harmless(part_name(part)) for part in parts if part.kind == kind), kind.value)
