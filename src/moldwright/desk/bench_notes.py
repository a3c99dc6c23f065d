"""Lines that write down what is measured or seen: air, thickness, cup, scale, lot, photo, note, problem."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from moldwright.bench.cup_now import CupNow
from moldwright.desk.bench_rests import drifted
from moldwright.desk.bench_say import said_of
from moldwright.desk.bench_session import BenchSession
from moldwright.desk.bench_steps import here
from moldwright.errors import InputRefused
from moldwright.log.any_events import Attached, Noted
from moldwright.log.run_events import (
    CupTemperature,
    Gauged,
    Gelled,
    Mishap,
    Problem,
    ScaleChecked,
)
from moldwright.mixing.correct import HOT_REST
from moldwright.plan.ids import NOWHERE
from moldwright.records.files.keep import keep_file
from moldwright.records.runs.boxes import air_of, body_of_box, boxes_of
from moldwright.records.runs.lots import lot_named
from moldwright.records.runs.next_act import Press
from moldwright.records.runs.typed import lengths, typed
from moldwright.text.harmless import harmless
from moldwright.text.shown import short

Told = Iterator[str]


def note(session: BenchSession, rest: str) -> Told:
    act = here(session)
    logged = session.write(Noted(rest, act.step, act.turn))
    yield from session.told(logged, "a note")


def problem(session: BenchSession, rest: str) -> Told:
    head, _, text = rest.partition(" ")
    if head.isdecimal():
        yield from _mishap(session, head, text)
        return
    yield "What went wrong?"
    yield from (f"  {number} {mishap.value}" for number, mishap in enumerate(Mishap, start=1))
    yield "Type its number, and words behind it if you like. Enter: nothing is written."
    session.pending = lambda typed_: _mishap(session, *_split(typed_)) if typed_.strip() else iter(())


def _split(text: str) -> tuple[str, str]:
    head, _, rest = text.strip().partition(" ")
    return head, rest


def _mishap(session: BenchSession, number: str, text: str) -> Told:
    mishaps = tuple(Mishap)
    if not number.isdecimal() or not 1 <= int(number) <= len(mishaps):
        raise InputRefused("no-such-choice", short(number), f"1 to {len(mishaps)}", "", "p shows the list again.")
    act, cup = here(session), session.next.cup
    logged = session.write(
        Problem(mishaps[int(number) - 1], text.strip(), act.step, act.turn, cup.ref if cup else None)
    )
    yield from session.told(logged, said_of(session.words, logged.events[0].body))


def air(session: BenchSession, rest: str) -> Told:
    logged = session.write(air_of(rest, session.run.plan.units, NOWHERE))
    yield from session.told(logged, said_of(session.words, logged.events[0].body))


def gauge(session: BenchSession, rest: str) -> Told:
    act = session.next.act
    if act is None or act.step.coat is None:
        raise InputRefused("no-coat", short(rest), "a step of a coat", "", "Turn to the coat's step first: /NUMBER.")
    logged = session.write(Gauged(act.step.coat, lengths(rest, session.run.plan.units, "thickness")))
    yield from session.told(logged, said_of(session.words, logged.events[0].body))


def _in_hand(session: BenchSession) -> CupNow:
    cups = [session.next.cup, *session.run.state.running]
    found = next((cup for cup in cups if cup is not None), None)
    if found is None:
        raise InputRefused("no-cup", "no cup in hand", "a cup", "", "Turn to the step that mixes it: /NUMBER.")
    return found


def cup(session: BenchSession, rest: str) -> Told:
    temperature = typed(rest, "temperature", session.run.plan.units, "the cup")
    logged = session.write(CupTemperature(_in_hand(session).ref, temperature))
    yield from session.told(logged, said_of(session.words, logged.events[0].body))


def gelled(session: BenchSession, rest: str) -> Told:
    cup = _in_hand(session)
    used = float(rest.rstrip(" %").replace(",", ".")) / 100.0 if re.fullmatch(r"\d+([.,]\d+)?\s*%?", rest) else 0.0
    if (rest and not used and not rest.startswith("0")) or used > 1.0:
        raise InputRefused("share-unclear", short(rest), "0 to 100 %", "", "x, or x 50 %: half is on the work.")
    logged = session.write(Gelled(cup.ref, used))
    session.choosing = None
    yield from session.told(logged, said_of(session.words, logged.events[0].body))
    if used < 1.0:
        yield from (HOT_REST,) if cup.reacts else ()
        yield "A new cup takes its place."


def lot(session: BenchSession, rest: str) -> Told:
    next_ = session.next
    if next_.press is not Press.WEIGH:
        raise InputRefused("no-part", short(rest), "a part that goes in next", "", "Type it where a part is asked for.")
    stuff = session.stuff_of(next_)
    session.chosen[stuff] = lot_named(session.shelves, stuff, rest).lot.id
    session.lot_typed = stuff
    yield from ()


def scale(session: BenchSession, rest: str) -> Told:
    parts = rest.replace(";", " ").split()
    if len(parts) != 2:
        raise InputRefused(
            "scale-check-unclear", short(rest), "two figures", "", "k 100 99.8: the weight, what it shows."
        )
    weight, reads = (typed(part, "mass", session.run.plan.units, "scale check") for part in parts)
    logged = session.write(ScaleChecked("", weight, reads))
    yield from session.told(logged, said_of(session.words, logged.events[0].body))
    yield from drifted(session)


def photo(session: BenchSession, rest: str) -> Told:
    name, _, text = rest.partition(" ")
    if not name:
        raise InputRefused("file-missing", "no file", "a photo's file", "", "f FILE, and words behind it if you like.")
    path = Path(rest) if Path(rest).is_file() else Path(name)
    act = here(session)
    file = keep_file(session.shop, path)
    logged = session.write(Attached(file, "" if path == Path(rest) else text.strip(), act.step, act.turn))
    yield from session.told(logged, f"the file {harmless(path.name)}")


def box(session: BenchSession, rest: str) -> Told:
    act = session.next.act
    boxes = boxes_of(act.step, act.act.turn) if act is not None else ()
    head, text = _split(rest)
    number = int(head) if head.isdecimal() and text and int(head) <= len(boxes) else 0
    if not boxes or not rest:
        raise InputRefused("no-box", short(rest), "a box of this step", "", "b TEXT writes into the step's first box.")
    logged = session.write(body_of_box(boxes[max(number - 1, 0)], text if number else rest, session.run.plan.units))
    yield from session.told(logged, said_of(session.words, logged.events[0].body))
