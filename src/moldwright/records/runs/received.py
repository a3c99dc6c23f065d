"""Entries that a screen made by itself, offline perhaps, taken in: each is kept, known already, or refused with why."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum

from moldwright.bench.cup_now import Refusal, refusal_of
from moldwright.bench.findings import RunFinding
from moldwright.errors import InputRefused, MoldwrightError, RecordConflict
from moldwright.log.any_events import Attached, Undone
from moldwright.log.codes import short_code
from moldwright.log.event import Event
from moldwright.log.ids import EventId, LotId, RunId
from moldwright.log.run_events import Ended, Started, Weighed
from moldwright.log.uuid7 import is_uuid7
from moldwright.records.files.kept import place_of
from moldwright.records.runs.checked import RunBounds, bounds_of, refuse_outside
from moldwright.records.runs.opened import OpenRun, open_run
from moldwright.records.runs.sent import Sender, event_sent, items_of
from moldwright.records.runs.twice import line_through_twice
from moldwright.records.shop import Shop
from moldwright.records.stock.shelf import known_lots
from moldwright.records.store.append import differs, kept_of
from moldwright.records.store.rows import row_of
from moldwright.text.shown import short


class Became(StrEnum):
    """What became of an entry that was sent."""

    KEPT = "kept"
    KNOWN = "known"
    REFUSED = "refused"


@dataclass(frozen=True, slots=True)
class EntryAnswer:
    """The answer to one entry.

    Parameters
    ----------
    number : which of those that were sent, from 0.
    id : its id, "" where it had none that could be read.
    became : what became of it.
    refusal : why it is refused.
    doubts : what is odd about one that is kept: its time, its lot.
    told_by : of one that tells a pour once more, the device that told it before; None of all others.
    """

    number: int
    id: str
    became: Became
    refusal: Refusal | None = None
    doubts: tuple[str, ...] = ()
    told_by: str | None = None


@dataclass(frozen=True, slots=True)
class Received:
    """What became of a batch: an answer to each entry in the order in which they were sent, the run as it stands now,
    findings that were not there before."""

    answers: tuple[EntryAnswer, ...]
    run: OpenRun
    found: tuple[RunFinding, ...]


def receive(shop: Shop, run: RunId, text: str | bytes, sender: Sender, now_ms: int) -> Received:
    """Take in a batch of entries of one run; those that are there already count once, and one that is refused keeps no
    other from being kept.

    Parameters
    ----------
    shop : the store.
    run : which run.
    text : JSON as `records.runs.sent.items_of` reads it.
    sender : whose entries they are that do not say it themselves.
    now_ms : the moment.

    Raises InputRefused ("batch-unreadable", "batch-too-large") where the whole is no batch, RecordConflict
    ("run-not-started").
    """
    items = items_of(text)
    before = open_run(shop, run, now_ms)
    batch = _Batch(shop, before, now_ms, bounds_of(before))
    events = batch.read(items, sender)
    batch.answer(events)
    after = batch.line_through_twice(open_run(shop, run, now_ms))
    found = tuple(each for each in after.state.findings if each not in before.state.findings)
    return Received(tuple(batch.answers[number] for number in range(len(items))), after, found)


@dataclass(slots=True)
class _Batch:
    """A batch while it is taken in."""

    shop: Shop
    run: OpenRun
    now_ms: int
    bounds: RunBounds
    answers: dict[int, EntryAnswer] = field(default_factory=dict)

    def read(self, items: Sequence[object], sender: Sender) -> list[tuple[int, Event]]:
        """The events that can be read, by their ids; all others are answered."""
        read = []
        for number, item in enumerate(items):
            try:
                read.append((number, event_sent(item, self.run, sender, self.now_ms)))
            except MoldwrightError as error:
                self._refuse(number, _id_of(item), error)
        return sorted(read, key=lambda each: (each[1].id, each[0]))

    def answer(self, sent: Sequence[tuple[int, Event]]) -> None:
        """Keep what may be kept, and answer all."""
        there = kept_of(self.shop, {event.id for _, event in sent})
        ended_ms = self._ended_ms(sent)
        lots = known_lots(self.shop, {e.body.lot for _, e in sent if isinstance(e.body, Weighed) and e.body.lot})
        known = {event.id: event for event in self.run.events}
        new: dict[EventId, tuple[int, Event]] = {}
        for number, event in sent:
            try:
                if event.id in there or event.id in new:
                    self._known(number, event, there, new)
                    continue
                refuse_outside(self.bounds, event.body)
                self._refuse_strays(event, known, ended_ms)
                row_of(event)
            except MoldwrightError as error:
                self._refuse(number, event.id, error)
                continue
            new[event.id] = number, event
            known[event.id] = event
        self._keep(list(new.values()), lots)

    def _ended_ms(self, sent: Sequence[tuple[int, Event]]) -> int | None:
        """When the run was over; None where one of these strikes its end out."""
        ends = {event.id for event in self.run.events if isinstance(event.body, Ended)}
        struck = any(isinstance(event.body, Undone) and event.body.event in ends for _, event in sent)
        return None if struck else self.run.state.frame.ended_ms

    def _known(
        self,
        number: int,
        event: Event,
        there: Mapping[EventId, Event],
        new: Mapping[EventId, tuple[int, Event]],
    ) -> None:
        """An entry whose id there is already: it is that very one, or it is refused."""
        first = there[event.id] if event.id in there else new[event.id][1]
        if differs(event, first):
            remedy = "Two entries have one id, or one was changed after it was sent: write it down as a new one."
            raise RecordConflict("event-differs", event.id, "the entry that is kept", "", remedy)
        self.answers[number] = EntryAnswer(number, event.id, Became.KNOWN)

    def _refuse_strays(self, event: Event, known: Mapping[EventId, Event], ended_ms: int | None) -> None:
        body = event.body
        if isinstance(body, Undone):
            _refuse_line(body, known)
        elif ended_ms is not None and event.at_ms > ended_ms:
            told = f"run {short_code(self.run.id)}"
            remedy = "Strike out its end if it goes on, then send this again; or write it down in another run."
            raise RecordConflict("run-ended", told, "what happened before its end", "", remedy)
        elif isinstance(body, Weighed) and body.lot is not None and not is_uuid7(body.lot):
            raise InputRefused("lot-unknown", short(body.lot), "the id of a lot", "", "Take a lot that is shown.")
        elif isinstance(body, Attached) and not place_of(self.shop.files, body.file).is_file():
            remedy = "Send the photo first, then this entry again."
            raise RecordConflict("file-missing", body.file[:12], "a file that is kept", "", remedy)

    def _keep(self, new: Sequence[tuple[int, Event]], lots: frozenset[LotId]) -> None:
        """All at once; where another bench came between, one by one."""
        try:
            done = self.shop.append([event for _, event in new])
        except RecordConflict:
            for one in new:
                try:
                    self.shop.append([one[1]])
                except RecordConflict as error:
                    self._refuse(one[0], one[1].id, error)
                else:
                    self.answers[one[0]] = EntryAnswer(one[0], one[1].id, Became.KEPT)
            return
        odd = {doubt.event: doubt.what.value for doubt in done.doubts}
        for number, event in new:
            became = Became.KNOWN if event.id in done.known else Became.KEPT
            doubts = (*_lot_doubts(event, lots), *([odd[event.id]] if event.id in odd else []))
            self.answers[number] = EntryAnswer(number, event.id, became, None, doubts)

    def line_through_twice(self, after: OpenRun) -> OpenRun:
        """What two screens told of one pour counts once, whichever of the two came first; the run as it stands then."""
        new = {EventId(each.id) for each in self.answers.values() if each.became is Became.KEPT}
        twice = {each.event.id: each.first.bench for each in line_through_twice(self.shop, after, new)}
        for number, answer in self.answers.items():
            if (first := twice.get(EventId(answer.id))) is not None:
                self.answers[number] = replace(answer, told_by=first)
        return open_run(self.shop, after.id, self.now_ms) if twice else after

    def _refuse(self, number: int, id_: str, error: MoldwrightError) -> None:
        self.answers[number] = EntryAnswer(number, id_, Became.REFUSED, refusal_of(error))


def _refuse_line(body: Undone, known: Mapping[EventId, Event]) -> None:
    """A line goes through an entry of this run that is kept, and through no line and no start."""
    meant = known.get(body.event)
    if meant is None:
        remedy = "Take an entry that the run's log shows."
        raise InputRefused("event-not-kept", short(body.event), "an entry of this run", "", remedy)
    if isinstance(meant.body, Undone):
        remedy = "A line takes nothing back once it is drawn: write down anew what was struck out by mistake."
        raise InputRefused("line-struck-out", short(body.event), "an entry that is no line", "", remedy)
    if isinstance(meant.body, Started):
        remedy = "A run that is not wanted is ended."
        raise InputRefused("start-struck-out", "the run's start", "an entry after it", "", remedy)


def _lot_doubts(event: Event, lots: frozenset[LotId]) -> Iterator[str]:
    body = event.body
    if isinstance(body, Weighed) and body.lot is not None and body.lot not in lots:
        yield "its lot is none of this shop"


def _id_of(item: object) -> str:
    found = item.get("id") if isinstance(item, dict) else None
    return short(found, 36) if isinstance(found, str) else ""
