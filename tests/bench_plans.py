"""A small plan for tests of the bench, its times and masses chosen so that they are reckoned in the head."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from dataclasses import replace
from itertools import count
from pathlib import Path

from moldwright.log.event import About, Body, Event
from moldwright.log.ids import EventId, PlanId, SubjectId
from moldwright.log.run_events import CupRef, Started
from moldwright.log.uuid7 import uuid7
from moldwright.plan.clocks import CurePlan, Curing
from moldwright.plan.coats import CoatPlan, Gesture, PigmentColor
from moldwright.plan.ids import CoatId, MixId, StepId
from moldwright.plan.lines import Line
from moldwright.plan.mixes import (
    BACK_FILL,
    SKIN,
    CupTask,
    MeasuredBy,
    MixFor,
    MixKind,
    MixPart,
    MixPlan,
    PartKind,
    StuffKey,
    TaskKind,
)
from moldwright.plan.plan import Plan
from moldwright.plan.steps import Per, Phase, StepPlan
from moldwright.ranges import Range

sys.path.insert(0, str(Path(__file__).parent / "unit"))
from job_plan_sample import sample_plan

MINUTE = 60_000
HOUR = 60 * MINUTE
START = 1_700_000_000_000
"""When the runs of the tests start [ms]."""
RUN = SubjectId("018bcfe5-6800-7000-8000-000000000001")
A, B, POWDER, PIGMENT = PartKind.A, PartKind.B, PartKind.POWDER, PartKind.PIGMENT
COAT_1, COAT_2 = CoatId("coat-1"), CoatId("coat-2")
COAT_CUP, SKIN_CUP, FILL_CUP = MixId("coat-1.cup-1"), MixId("skin.cup-1"), MixId("back-fill.cup-1")


def step(
    id_: str,
    phase: Phase,
    per: Per = Per.MOLD,
    wait_min: Range | None = None,
    mixes: tuple[MixId, ...] = (),
    coat: CoatId | None = None,
    closes: tuple[Range, str] | None = None,
    cures: tuple[Curing, ...] = (),
) -> StepPlan:
    made = StepPlan(StepId(id_), phase, coat, per, Line(""), 5.0, wait_min, (), (), (), (), (), mixes, None, ())
    made = replace(made, cures=cures)
    return made if closes is None else replace(made, closes_min=closes[0], closes_for=StepId(closes[1]))


def cup(id_: MixId, for_: MixFor, parts: Iterable[MixPart], tasks: tuple[CupTask, ...], work_by_s: float) -> MixPlan:
    """A cup of two parts alike, its ratio within 2 %, its tolerance 0.4 %: 0.8 % to spare for either part."""
    return MixPlan(id_, for_, 1, tuple(parts), tasks, work_by_s, 0.4, 10.0, 0.0, 1.0, 2.0, 400.0)


def part(
    kind: PartKind, mass_g: float, reads_g: float, by: MeasuredBy = MeasuredBy.SCALE, of: str = "rubber"
) -> MixPart:
    return MixPart(kind, kind.value, mass_g, mass_g, reads_g, by, reads_g, stuff=StuffKey(of, kind.value))


MIXES = (
    cup(
        COAT_CUP,
        MixFor(MixKind.COAT, COAT_1),
        (part(B, 100.0, 100.0), part(PIGMENT, 0.2, 100.2, MeasuredBy.STICK), part(A, 100.0, 200.2)),
        (CupTask(TaskKind.MIX, 180.0), CupTask(TaskKind.LAY, 600.0)),
        1800.0,
    ),
    cup(
        SKIN_CUP,
        SKIN,
        (part(A, 50.0, 50.0, of="resin"), part(POWDER, 150.0, 200.0, of="powder"), part(B, 50.0, 250.0, of="resin")),
        (CupTask(TaskKind.MIX, 60.0), CupTask(TaskKind.POUR, 30.0), CupTask(TaskKind.SWIRL, 100.0)),
        240.0,
    ),
    cup(
        FILL_CUP,
        BACK_FILL,
        (part(A, 80.0, 80.0, of="resin"), part(B, 80.0, 160.0, of="resin")),
        (CupTask(TaskKind.MIX, 60.0),),
        300.0,
    ),
)
STEPS = (
    step("receive", Phase.BEFORE_RUBBER),
    step("release", Phase.BEFORE_RUBBER, wait_min=Range(10.0, 20.0, 60.0)),
    step("coat-1-mix", Phase.COAT, mixes=(COAT_CUP,), coat=COAT_1),
    step("coat-1", Phase.COAT, coat=COAT_1),
    step("coat-1-look", Phase.COAT, coat=COAT_1, wait_min=Range(60.0, 90.0, 120.0), cures=(Curing.RUBBER,)),
    step("hold", Phase.GLOVE, coat=None),
    step("cure", Phase.OFF_ORIGINAL, wait_min=Range(600.0, 900.0, 1200.0), cures=(Curing.RUBBER,)),
    step("powder-dry", Phase.MOLD_READY, Per.BATCH, Range(60.0, 120.0, 240.0)),
    step("wash", Phase.MOLD_READY, Per.CAST, Range(30.0, 40.0, 50.0)),
    step("seat", Phase.MOLD_READY, Per.CAST),
    step(
        "skin",
        Phase.SKIN,
        Per.CAST,
        Range(8.0, 20.0, 32.0),
        (SKIN_CUP,),
        closes=(Range.exactly(32.0), "fill"),
        cures=(Curing.SKIN,),
    ),
    step("fill", Phase.BACK_FILL, Per.CAST, None, (FILL_CUP,)),
    step("set", Phase.SETTING, Per.CAST, Range(50.0, 65.0, 100.0), cures=(Curing.SKIN, Curing.BACK_FILL)),
    step("demold", Phase.OUT_OF_MOLD, Per.CAST),
    step("flash", Phase.DRESSING, Per.CAST),
    step("wax", Phase.WAXING, Per.CAST, Range(20.0, 30.0, 60.0)),
    step("approve", Phase.LAST),
    step("pack", Phase.LAST, Per.CAST),
    step("rest", Phase.LAST, Per.BATCH, Range(30.0, 60.0, 240.0)),
    step("clean", Phase.LAST, Per.BATCH),
    step("store", Phase.LAST, Per.EDITION),
)
CURES = (
    CurePlan(Curing.RUBBER, Range.exactly(60.0), Range.exactly(2400.0)),
    CurePlan(Curing.SKIN, Range(40.0, 60.0, 80.0), Range.exactly(300.0)),
    CurePlan(Curing.BACK_FILL, Range(40.0, 60.0, 80.0), Range.exactly(300.0)),
)
MOLD_STEPS = tuple(each.id for each in STEPS[:7])


def bench_plan(count_: int = 3) -> Plan:
    """The small plan: one coat, a skin of metal, a back-fill; an edition of so many."""
    sample = sample_plan()
    coat = CoatPlan(
        COAT_1, "detail", 2.0, 0.0, PigmentColor.YELLOW, Gesture.STIPPLE, 1, 180.0, 190.0, Range(195.0, 200.0, 220.0), 1
    )
    return replace(
        sample,
        glove=replace(sample.glove, coats=(coat,)),
        mixes=MIXES,
        steps=STEPS,
        cautions=(),
        cures=CURES,
        temperature_c=22.0,
        scale_g=0.1,
        marks_ml=None,
        count=count_,
        strategies=None,
    )


class Book:
    """A log that is written in a test: every entry at a minute after the start."""

    def __init__(self, casts: int = 3, batch: int = 1, **started: object) -> None:
        self.ids = count(1)
        self.events: list[Event] = []
        self.write(0.0, Started(PlanId("a" * 64), "stag", casts, batch, **started))  # type: ignore[arg-type]

    def write(self, minute: float, body: Body) -> Event:
        at_ms = START + round(minute * MINUTE)
        id_ = EventId(uuid7(at_ms, next(self.ids) << 40))
        event = Event(id_, About.RUN, RUN, at_ms, "tablet 1", "", body)
        self.events.append(event)
        return event


def at(minute: float) -> int:
    """So many minutes after the start [ms]."""
    return START + round(minute * MINUTE)


def coat_cup(filling: int = 1) -> CupRef:
    return CupRef(COAT_CUP, 0, filling)


def skin_cup(turn: int, filling: int = 1) -> CupRef:
    return CupRef(SKIN_CUP, turn, filling)
