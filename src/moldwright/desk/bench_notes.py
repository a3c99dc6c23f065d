"""Lines that write down what is measured or seen: air, thickness, cup, scale, lot, photo, note, problem."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from moldwright.desk.bench_session import BenchSession
from moldwright.errors import InputRefused
from moldwright.log.run_events import Mishap
from moldwright.mixing.correct import HOT_REST
from moldwright.records.files.keep import keep_file
from moldwright.records.runs.doing import notes
from moldwright.records.runs.doing.boxes import box_meant, write_box
from moldwright.records.runs.doing.lots import stuff_of
from moldwright.records.runs.lots import lot_named
from moldwright.records.runs.next_act import Press
from moldwright.records.runs.said import share_said
from moldwright.sheets.rest_words import drift_lines
from moldwright.text.harmless import harmless
from moldwright.text.shown import short

Told = Iterator[str]


def note(session: BenchSession, rest: str) -> Told:
    logged = session.took(notes.note(session.at, session.next, rest))
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
    yield from session.kept(notes.problem(session.at, session.next, number, text))


def air(session: BenchSession, rest: str) -> Told:
    yield from session.kept(notes.air(session.at, rest))


def gauge(session: BenchSession, rest: str) -> Told:
    yield from session.kept(notes.gauge(session.at, session.next, rest))


def cup(session: BenchSession, rest: str) -> Told:
    in_hand = notes.cup_in_hand(session.run, session.next)
    yield from session.kept(notes.cup_temperature(session.at, in_hand, rest))


def gelled(session: BenchSession, rest: str) -> Told:
    cup, used = notes.cup_in_hand(session.run, session.next), share_said(rest)
    logged = notes.gelled(session.at, cup, used)
    session.choosing = None
    yield from session.kept(logged)
    if used < 1.0:
        yield from (HOT_REST,) if cup.reacts else ()
        yield "A new cup takes its place."


def lot(session: BenchSession, rest: str) -> Told:
    next_ = session.next
    if next_.press is not Press.WEIGH:
        raise InputRefused("no-part", short(rest), "a part that goes in next", "", "Type it where a part is asked for.")
    stuff = stuff_of(next_)
    session.chosen[stuff] = lot_named(session.shelves, stuff, rest).lot.id
    session.lot_typed = stuff
    yield from ()


def scale(session: BenchSession, rest: str) -> Told:
    logged, drift = notes.scale_check(session.at, rest)
    yield from session.kept(logged)
    if drift is not None:
        yield from drift_lines(session.words, drift)


def photo(session: BenchSession, rest: str) -> Told:
    name, _, text = rest.partition(" ")
    if not name:
        raise InputRefused("file-missing", "no file", "a photo's file", "", "f FILE, and words behind it if you like.")
    path = Path(rest) if Path(rest).is_file() else Path(name)
    file = keep_file(session.shop, path)
    logged = notes.attach(session.at, session.next, file, "" if path == Path(rest) else text.strip())
    yield from session.told(session.took(logged), f"the file {harmless(path.name)}")


def box(session: BenchSession, rest: str) -> Told:
    meant, text = box_meant(session.next, rest)
    yield from session.kept(write_box(session.at, meant, text))
