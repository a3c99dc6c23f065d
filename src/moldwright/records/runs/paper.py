"""What stands on paper becomes events: at the time that the paper tells, else only in its order."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta
from itertools import groupby

from moldwright.bench.boxes import BoxOf
from moldwright.errors import InputRefused
from moldwright.log.event import Body
from moldwright.log.ids import LotId
from moldwright.log.run_events import BoxWritten, Done, Poured, ShopAir, Weighed
from moldwright.plan.mixes import MeasuredBy, MixPart
from moldwright.records.runs.boxes import body_of_box
from moldwright.records.runs.opened import OpenRun
from moldwright.records.runs.paper_rows import PaperRow, RowKind
from moldwright.records.runs.typed import typed
from moldwright.records.told import day_told
from moldwright.text.shown import short

SAME = "="
"""As printed."""
TICKED = frozenset(("x", SAME, "ok", "done"))
CLOCK = re.compile(r"\b(\d{1,2}):(\d{2})\b")
BACK_MS = 12 * 3_600_000
"""A time so far before the one above it on a sheet is of the next day: our own."""
BEGAN, LEFT, WAIT_TO = "began", "left", "wait.to"
"""Keys of what stands on a card or behind a wait and has no event of its own."""
LotOf = Callable[[str, MixPart], LotId]
"""The lot that is meant by what stands in a Lot box; raises what refuses it."""


@dataclass(frozen=True, slots=True)
class PaperEntry:
    """A row with what was typed for it; `where`: what a refusal calls it ("line 12")."""

    row: PaperRow
    text: str
    where: str = ""


@dataclass(frozen=True, slots=True)
class DatedBody:
    """What happened by the paper, and when, told or only in its order [ms]."""

    body: Body
    at_ms: int


class PaperDays:
    """The day of the sheet and the last time on it; times that nobody told follow one another by a millisecond.

    Parameters
    ----------
    day : of the first sheet.
    """

    def __init__(self, day: date) -> None:
        self.day, self._at_ms = day, 0

    def turn(self, day: date) -> None:
        """The next sheet, of another day."""
        self.day = day

    def next(self) -> int:
        """When something was that comes next and has no time."""
        self._at_ms = max(self._at_ms + 1, _ms(self.day, time()))
        return self._at_ms

    def told(self, clock: re.Match[str]) -> int:
        """When something was that the sheet tells the time of."""
        hour, minute = int(clock[1]), int(clock[2])
        if hour > 23 or minute > 59:
            raise InputRefused("time-unclear", clock[0], "a time of the day", "", "Write it as 14:05.")
        at_ms = _ms(self.day, time(hour, minute))
        if at_ms + BACK_MS < self._at_ms:
            self.day += timedelta(days=1)
            at_ms = _ms(self.day, time(hour, minute))
        self._at_ms = max(self._at_ms, at_ms)
        return at_ms


def _ms(day: date, at: time) -> int:
    return int(datetime.combine(day, at).timestamp() * 1000)


def bodies_of_paper(run: OpenRun, entries: Iterable[PaperEntry], day: date, lot_of: LotOf) -> tuple[DatedBody, ...]:
    """What the rows of the sheets say; of a row in which nothing stands nothing.

    Parameters
    ----------
    run : which.
    entries : rows in the order of the sheets, with what was typed.
    day : of the first sheet, until one says another.
    lot_of : finds the lot that stands in a box.

    Raises InputRefused with the rows in front of what is wrong with them, all of them at once.
    """
    days, found, wrong = PaperDays(day), list[DatedBody](), list[tuple[PaperEntry, InputRefused]]()
    told = [entry for entry in entries if entry.text.strip()]
    for _, group in groupby(told, key=lambda entry: (entry.row.act, entry.row.cup)):
        together = list(group)
        try:
            found += _of(run, together, days, lot_of)
        except _WrongError as error:
            wrong.append((error.entry, error.why))
    if wrong:
        raise _refused(wrong)
    return tuple(found)


class _WrongError(Exception):
    """An entry that cannot be read, and why."""

    def __init__(self, entry: PaperEntry, why: InputRefused) -> None:
        super().__init__(str(why))
        self.entry, self.why = entry, why


def _refused(wrong: list[tuple[PaperEntry, InputRefused]]) -> InputRefused:
    told = "; ".join(f"{entry.where or entry.row.key}: {short(str(why.actual), 40)}" for entry, why in wrong[:8])
    more = f"; and {len(wrong) - 8} more" if len(wrong) > 8 else ""
    first = wrong[0][1]
    return InputRefused(
        "paper-unreadable", told + more, first.limit, first.unit, f"Nothing was written. {first.remedy}", first.way
    )


def _of(run: OpenRun, together: list[PaperEntry], days: PaperDays, lot_of: LotOf) -> Iterator[DatedBody]:
    """What the rows of one cup, or of one step beside its cups, say."""
    by_kind = {kind: [entry for entry in together if entry.row.kind is kind] for kind in RowKind}
    for entry in by_kind[RowKind.DATE]:
        with _naming(entry):
            days.turn(date.fromisoformat(day_told(entry.text, days.day)))
    yield from _cup(run, by_kind[RowKind.PART], by_kind[RowKind.CUP], days, lot_of)
    for entry in by_kind[RowKind.BOX]:
        with _naming(entry):
            yield _box(run, entry, days)
    yield from _done(by_kind[RowKind.TICK], by_kind[RowKind.WAIT], days)


class _naming:  # noqa: N801
    """Whose fault it is where something is refused."""

    def __init__(self, entry: PaperEntry) -> None:
        self._entry = entry

    def __enter__(self) -> None:
        pass

    def __exit__(self, _kind: object, error: BaseException | None, _trace: object) -> None:
        if isinstance(error, InputRefused):
            raise _WrongError(self._entry, error) from None


def _cup(
    run: OpenRun, parts: list[PaperEntry], cups: list[PaperEntry], days: PaperDays, lot_of: LotOf
) -> Iterator[DatedBody]:
    """Weighings in their order; the one that starts the clock at the time that stands behind "began"."""
    weighed = list(_weighed(run, parts, lot_of))
    began, left, mass = _times_of(run, cups[-1]) if cups else (None, None, "")
    starter = run.plan.mix(weighed[0].cup.mix).starter if weighed else None
    for body in weighed:
        if began is not None and body.part == starter:
            with _naming(cups[-1]):
                yield DatedBody(replace(body, timed=True), days.told(began))
                began = None
        else:
            yield DatedBody(body, days.next())
    for entry in cups[-1:]:
        assert entry.row.cup is not None
        act, cup = entry.row.act, entry.row.cup
        with _naming(entry):
            if began is not None:
                yield DatedBody(BoxWritten(act.step, f"{cup.mix}.{BEGAN}", began[0], act.turn), days.told(began))
            if left is not None:
                yield DatedBody(Poured(cup), days.told(left))
            if mass:
                yield DatedBody(BoxWritten(act.step, f"{cup.mix}.{LEFT}", mass, act.turn), days.next())


def _times_of(run: OpenRun, entry: PaperEntry) -> tuple[re.Match[str] | None, re.Match[str] | None, str]:
    """Began and left, "-" for an empty one; left may be a mass, what stayed in the cup."""
    with _naming(entry):
        times = list(CLOCK.finditer(entry.text))
        rest = CLOCK.sub(" ", entry.text).strip(" ,;")
        first = None if rest.startswith("-") or not times else times.pop(0)
        mass = rest.lstrip("- ")
        if mass:
            typed(mass, "mass", run.plan.units, "left in the cup")
        if len(times) > 1 or not (first or times or mass):
            remedy = "Write when it began and left: 14:05 14:20; - where one is empty."
            raise InputRefused("time-unclear", short(entry.text), "two times of the day", "", remedy)
        return first, times[0] if times else None, mass
    raise AssertionError


def _weighed(run: OpenRun, parts: list[PaperEntry], lot_of: LotOf) -> Iterator[Weighed]:
    """What each part weighed: its total less the one above it, as written or else as printed."""
    written: dict[str, float] = {}
    for entry in parts:
        part, cup = entry.row.part, entry.row.cup
        assert part is not None
        assert cup is not None
        printed = run.plan.mix(cup.mix).parts
        above = printed[[each.kind for each in printed].index(part.kind) - 1] if part != printed[0] else None
        before = 0.0 if above is None else written.get(above.kind, above.scale_reads_g)
        with _naming(entry):
            total, lot = _total(run, part, before, entry.text)
            written[part.kind] = total
            mass = part.mass_g if total == before + part.mass_g else round(total - before, 6)
            if mass < 0.0:
                remedy = "The totals rise down the column: type all that the scale read, as it stands in the box."
                raise InputRefused("reads-less-than-before", total, before, "g", remedy)
            of = lot_of(lot, part) if lot else None
            reads = total if part.by is MeasuredBy.SCALE or _is_figure(entry.text) else None
            yield Weighed(cup, part.kind, part.mass_g, mass, reads, "", of, False)


def _is_figure(text: str) -> bool:
    return text.strip()[:1].isdigit()


def _total(run: OpenRun, part: MixPart, before_g: float, text: str) -> tuple[float, str]:
    """The running total, and what stands in the Lot box: "32.6", "32.6 4711", "= 4711"."""
    head, _, lot = text.strip().partition(" ")
    if head.casefold() in TICKED:
        return (part.scale_reads_g if part.by is MeasuredBy.SCALE else before_g + part.mass_g), lot.strip()
    return typed(head, "mass", run.plan.units, "it read"), lot.strip()


def _box(run: OpenRun, entry: PaperEntry, days: PaperDays) -> DatedBody:
    box, text = entry.row.box, entry.text.strip()
    assert box is not None
    if box.kind is BoxOf.POURED:
        clock = CLOCK.fullmatch(text)
        if clock is None:
            raise InputRefused("time-unclear", short(text), "a time of the day", "", "Write it as 14:05.")
        return DatedBody(BoxWritten(box.step, box.key, text, box.turn), days.told(clock))
    body = body_of_box(box, text, run.plan.units)
    return DatedBody(replace(body, timed=False) if isinstance(body, ShopAir) else body, days.next())


def _done(ticks: list[PaperEntry], waits: list[PaperEntry], days: PaperDays) -> Iterator[DatedBody]:
    """That a step is done: at the time behind its tick, else at that from which its wait counts, else untimed."""
    at, from_, to = (_tick(ticks[-1]) if ticks else None), None, None
    for entry in waits[-1:]:
        from_, to = _wait(entry)
    for entry in (*ticks[-1:], *waits[-1:])[:1]:
        with _naming(entry):
            step, turn = entry.row.act.step, entry.row.act.turn
            if (clock := at or from_) is not None:
                yield DatedBody(Done(step, turn), days.told(clock))
            elif ticks:
                yield DatedBody(Done(step, turn, False), days.next())
            if to is not None:
                yield DatedBody(BoxWritten(step, WAIT_TO, to[0], turn), days.told(to))


def _tick(entry: PaperEntry) -> re.Match[str] | None:
    text = entry.text.strip()
    with _naming(entry):
        clock = CLOCK.fullmatch(text)
        if clock is None and text.casefold() not in TICKED:
            raise InputRefused(
                "tick-unclear", short(text), "x, or a time", "", "x where it is ticked, 14:05 with its time."
            )
    return clock


def _wait(entry: PaperEntry) -> tuple[re.Match[str] | None, re.Match[str] | None]:
    """From and to, "-" for an empty one."""
    with _naming(entry):
        times = list(CLOCK.finditer(entry.text))
        first = None if entry.text.lstrip().startswith("-") or not times else times.pop(0)
        if len(times) > 1 or not (first or times):
            remedy = "Write from and to: 14:05 16:20; - where one is empty."
            raise InputRefused("time-unclear", short(entry.text), "two times of the day", "", remedy)
    return first, times[0] if times else None


def rows_by_key(rows: Iterable[PaperRow]) -> Mapping[str, PaperRow]:
    """Rows by their keys.

    Parameters
    ----------
    rows : of the sheets.
    """
    return {row.key: row for row in rows}
