"""The presses of each state of the screen, with the events that they write."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from moldwright.bench.boxes import BoxOf
from moldwright.bench.cup_now import CupNow, PartNow
from moldwright.bench.now import ActNow, ActState
from moldwright.log.any_events import Noted
from moldwright.log.event import Body
from moldwright.log.ids import LotId
from moldwright.log.json_text import kind_of
from moldwright.log.run_events import Begun, Ended, Gelled, LeftOut, Mishap, Problem
from moldwright.plan.ids import NOWHERE, StepId
from moldwright.plan.json_text import tree_of
from moldwright.plan.mixes import MeasuredBy
from moldwright.records.runs.boxes import SheetBox
from moldwright.records.runs.next_act import NextAct, as_told
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.said import (
    SAID_NAMES,
    SaidAir,
    SaidBox,
    SaidGauge,
    SaidGelled,
    SaidHeat,
    SaidMass,
    SaidReading,
    SaidScale,
    SaidVolume,
)
from moldwright.records.runs.typed import BARE
from moldwright.told.bench.screen_words import ScreenWords
from moldwright.told.bench.turns import cups_with_mix, turn_of
from moldwright.told.bench.view import BoxShown, LimitsShown
from moldwright.told.bench.view_press import AskShown, EventTemplate, PressShown
from moldwright.words.speaker import say


def template(body: Body) -> EventTemplate:
    """An event, or what is typed for one, as a screen sends it.

    Parameters
    ----------
    body : what happens.
    """
    name = SAID_NAMES.get(type(body)) or kind_of(body)
    return EventTemplate(name, tree_of(body))


def weigh_presses(
    words: ScreenWords, cup: CupNow, part: PartNow, lot: LotId | None, limits: LimitsShown | None
) -> tuple[PressShown, ...]:
    """Right, Short and Over; or only that it is in.

    Parameters
    ----------
    words : of the plan.
    cup, part : what goes in.
    lot : that it is taken from.
    limits : between which it is right; None where nothing is measured.
    """
    first = right_press(cup, part, lot, limits)
    if limits is None:
        return (first,)
    typed, ask = _typed(words, cup, part, lot)
    shorts = (PressShown("short", say("Short"), say("under {low}", low=limits.low_text), False, (typed,), (ask,)),)
    overs = (PressShown("over", say("Over"), say("past {high}", high=limits.high_text), False, (typed,), (ask,)),)
    return (first, *shorts, *overs)


def right_press(cup: CupNow, part: PartNow, lot: LotId | None, limits: LimitsShown | None) -> PressShown:
    """That a part is in as it was asked for.

    Parameters
    ----------
    cup, part : what goes in.
    lot : that it is taken from.
    limits : between which it is right; None where nothing is measured.
    """
    told = as_told(cup, part)
    body = template(replace(told, lot=lot))
    if limits is None:
        return PressShown("right", say("It is in"), "", True, (body,))
    right = (
        say("{low} to {high}", low=limits.low_text, high=limits.high_text)
        if limits.low_text != limits.high_text
        else limits.low_text
    )
    return PressShown("right", say("Right"), right, True, (body,))


def _typed(words: ScreenWords, cup: CupNow, part: PartNow, lot: LotId | None) -> tuple[EventTemplate, AskShown]:
    """What is typed after Short or Over: what the scale reads, or what the syringe or the mark shows."""
    units = words.plan.units
    if part.by is MeasuredBy.SCALE:
        before = part.reads_g - part.add_g
        said = SaidReading(cup.ref, part.kind, part.add_g, before, "", units, lot, round(before - part.in_g, 6))
        return template(said), AskShown("reads", "mass", say("The scale reads"), BARE["mass"][units])
    volume = SaidVolume(cup.ref, part.kind, part.add_g, part.add_ml, "", units, lot, part.in_g)
    return template(volume), AskShown("volume", "volume", say("So much went in"), BARE["volume"][units])


def mass_press(words: ScreenWords, cup: CupNow, part: PartNow, lot: LotId | None) -> PressShown:
    """So much went in alone: where the scale was zeroed between.

    Parameters
    ----------
    words : of the plan.
    cup, part : what goes in.
    lot : that it is taken from.
    """
    units = words.plan.units
    said = SaidMass(cup.ref, part.kind, part.add_g, "", units, lot, part.in_g)
    ask = AskShown("mass", "mass", say("So much {part} went in", part=words.part(cup, part.kind)), BARE["mass"][units])
    return PressShown("went-in", say("What went in"), "", False, (template(said),), (ask,))


def lay_presses(next_: NextAct) -> tuple[PressShown, ...]:
    """A cup is on the work, or gelled before it was.

    Parameters
    ----------
    next_ : what is next.
    """
    assert next_.cup is not None
    laid = PressShown("laid", say("On the work"), "", True, tuple(map(template, next_.bodies)))
    body = Gelled(next_.cup.ref)
    gelled = PressShown("gelled", say("It gelled in the cup"), "", False, (template(body),), turn=turn_of(body))
    return laid, gelled


def box_presses(words: ScreenWords, box: SheetBox) -> tuple[PressShown, ...]:
    """Write in a box, or pass it over.

    Parameters
    ----------
    words : of the plan.
    box : which.
    """
    said, shown = SaidBox(box.step, box.key, "", words.plan.units, box.turn), box_shown(words, box)
    unit = BARE[UNITED[shown.what]][words.plan.units] if shown.what in UNITED else ""
    ask = AskShown("text", shown.what, shown.label, unit)
    write = PressShown("write", say("Write it"), "", True, (template(said),), (ask,))
    return write, PressShown("pass", say("Nothing to write"))


def box_shown(words: ScreenWords, box: SheetBox) -> BoxShown:
    """A box, and what is asked for in it.

    Parameters
    ----------
    words : of the plan.
    box : which.
    """
    label = words.wording.line(box.line, words.places[box.step].step.quantities)
    return BoxShown(box.step, box.turn, box.key, label, WRITTEN.get(box.kind, "text"))


WRITTEN = {
    BoxOf.THICKNESS: "lengths",
    BoxOf.AIR: "air",
    BoxOf.CAST_MASS: "mass",
    BoxOf.CAST_HEIGHT: "length",
}
"""What is written in boxes that hold a quantity."""
UNITED = {"lengths": "length", "length": "length", "air": "temperature", "mass": "mass"}


def done_press(next_: NextAct) -> PressShown:
    """The act in hand is done.

    Parameters
    ----------
    next_ : what is next.
    """
    return PressShown("done", say("Done"), "", True, tuple(map(template, next_.bodies)))


def end_press() -> PressShown:
    """The run is over."""
    return PressShown("end", say("The run is over"), "", True, (template(Ended()),))


def number_presses() -> tuple[PressShown, ...]:
    """The edition gives the next number, or the one that is asked for, or a proof's: its store is asked."""
    ask = AskShown("number", "number", say("Number on the piece"))
    return (
        PressShown("number", say("Next free number"), "", True, online=True),
        PressShown("number-chosen", say("Another number"), "", False, (), (ask,), online=True),
        PressShown("number-proof", say("Artist's proof"), "", False, online=True),
        PressShown("pass", say("Number it later")),
    )


def aside_presses(words: ScreenWords, run: OpenRun, next_: NextAct) -> tuple[PressShown, ...]:
    """What may be written down beside what is asked for.

    Parameters
    ----------
    words : of the plan.
    run : as it stands.
    next_ : what is next.
    """
    if run.state.frame.ended_ms is not None:
        return ()
    return (*_of_act(words, next_), *_of_cups(words, run, next_), *_of_shop(words))


def _of_act(words: ScreenWords, next_: NextAct) -> Iterator[PressShown]:
    act = next_.act
    step, turn = (act.act.step, act.act.turn) if act is not None else (StepId(NOWHERE), 0)
    cup = None if next_.cup is None else next_.cup.ref
    text = AskShown("text", "text", say("Note"))
    yield PressShown("note", say("Note"), "", False, (template(Noted("", step, turn)),), (text,))
    which = AskShown("what", "choice", say("What went wrong?"))
    line = AskShown("text", "text", say("A line about it"), may_lack=True)
    problem = template(Problem(Mishap.OTHER, "", step, turn, cup))
    yield PressShown("problem", say("Something went wrong"), "", False, (problem,), (which, line))
    if act is not None:
        yield from _of_step(words, act)


def _of_step(words: ScreenWords, act: ActNow) -> Iterator[PressShown]:
    step, turn = act.act.step, act.act.turn
    if act.state is not ActState.IN_HAND:
        yield PressShown("begin", say("In hand"), "", False, (template(Begun(step, turn)),))
    why = AskShown("why", "text", say("Why it is left out"))
    left = LeftOut(step, "", turn)
    yield PressShown("leave-out", say("Leave it out"), "", False, (template(left),), (why,), turn=turn_of(left))
    if act.step.coat is not None:
        units = words.plan.units
        ask = AskShown("places", "lengths", say("Thickness at some places"), BARE["length"][units])
        yield PressShown("gauge", say("Thickness"), "", False, (template(SaidGauge(act.step.coat, "", units)),), (ask,))


def _of_cups(words: ScreenWords, run: OpenRun, next_: NextAct) -> Iterator[PressShown]:
    """Of the cup in hand, and of every cup whose clock runs."""
    units = words.plan.units
    for ref in cups_with_mix(run, next_):
        used = AskShown("used", "share", say("So much of it is on the work"), "%", may_lack=True, decides=True)
        name = words.cup(ref)
        said = SaidGelled(ref)
        yield PressShown("gelled", say("It gelled"), name, False, (template(said),), (used,), turn=turn_of(said))
        ask = AskShown("temperature", "temperature", say("The mix in the cup"), BARE["temperature"][units])
        yield PressShown("heat", say("Its temperature"), name, False, (template(SaidHeat(ref, "", units)),), (ask,))


def _of_shop(words: ScreenWords) -> Iterator[PressShown]:
    units = words.plan.units
    ask = AskShown("air", "air", say("The shop's air, and its humidity in %"), BARE["temperature"][units])
    yield PressShown("air", say("The air"), "", False, (template(SaidAir("", units)),), (ask,))
    weight = AskShown("weight", "mass", say("A known weight"), BARE["mass"][units])
    reads = AskShown("reads", "mass", say("The scale shows"), BARE["mass"][units])
    yield PressShown("scale", say("Check the scale"), "", False, (template(SaidScale("", "", units)),), (weight, reads))
