"""A session at the bench: one line in, the lines to print out. What is told is on the disk already."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from moldwright.bench.acts import Act
from moldwright.bench.findings import RunFinding
from moldwright.desk.bench_ask import asked
from moldwright.desk.bench_line import LineWord, bench_line
from moldwright.desk.ways import remedy_line
from moldwright.errors import InputRefused, MoldwrightError, spoken
from moldwright.log.event import Event
from moldwright.log.ids import LotId, RunId
from moldwright.log.run_events import Weighed
from moldwright.plan.mixes import StuffKey
from moldwright.records.clock import BenchClock
from moldwright.records.doubts import doubts
from moldwright.records.runs.boxes import BoxId
from moldwright.records.runs.doing.at_run import AtRun
from moldwright.records.runs.doing.lots import held_for, lot_for
from moldwright.records.runs.doing.put_right import ways
from moldwright.records.runs.doing.weigh import PouredOver
from moldwright.records.runs.lots import LotFor
from moldwright.records.runs.next_act import NextAct, Press, mold_is_made, next_act
from moldwright.records.runs.opened import OpenRun, open_run
from moldwright.records.runs.remedies import CupRemedy
from moldwright.records.runs.write import Logged
from moldwright.records.shop import Shop
from moldwright.records.stock.shelf import OnShelf, on_shelf
from moldwright.records.told import day_of
from moldwright.sheets.bench_tell import act_lines, clock_lines, where_lines
from moldwright.sheets.bench_words import BenchWords, clock
from moldwright.text.harmless import harmless
from moldwright.told.bench.cup_words import lot_lines, remedy_lines
from moldwright.told.bench.entry_words import said_of


class BenchSession:
    """What a person at the bench sees and types.

    Parameters
    ----------
    shop : the store.
    clock : of the bench.
    run : which run.
    """

    def __init__(self, shop: Shop, clock: BenchClock, run: RunId) -> None:
        self.shop, self.clock = shop, clock
        self.run: OpenRun = open_run(shop, run, clock.now())
        self.words = BenchWords(self.run.plan)
        self.wanted: Act | None = None
        self.skipped: set[BoxId] = set()
        self.chosen: dict[StuffKey, LotId] = {}
        self.lot_typed: StuffKey | None = None
        self.choosing: PouredOver | None = None
        self.pending: Callable[[str], Iterator[str]] | None = None
        self.left = False
        self.written: tuple[Event, ...] = ()
        self._shelves: tuple[OnShelf, ...] | None = None
        self._introduced: Act | None = None

    def opening(self) -> Iterator[str]:
        """What is told once, when the bench is stepped up to."""
        state = self.run.state
        started = state.frame.started
        yield f"{harmless(self.run.plan.name)}. ?: what may be typed. q: leave."
        if started is not None and started.mold is not None:
            yield "Cast from a mold on the shelf."
        yield from self._clocks_apart()
        yield from where_lines(self.words, state)

    def _clocks_apart(self) -> Iterator[str]:
        odd = {doubt.bench: doubt for doubt in doubts(self.run.events, self.clock.now())}
        for bench, doubt in odd.items():
            minutes = doubt.by_ms // 60_000
            yield f"! Clock of {harmless(bench)}: {doubt.what.value}, by {minutes} min. Set the clocks alike."

    def look(self) -> None:
        """See what other benches wrote, and what the time is."""
        self.run = open_run(self.shop, self.run.id, self.clock.now())

    @property
    def next(self) -> NextAct:
        """What is next."""
        return next_act(self.run, self.wanted, self.skipped)

    def asking(self) -> Iterator[str]:
        """The lines before the next answer: a step in full when it is turned to, clocks, what Enter does."""
        next_ = self.next
        if next_.act is not None and next_.act.act != self._introduced:
            self._introduced = next_.act.act
            yield from act_lines(self.words, next_.act)
        yield from clock_lines(self.words, self.run.state)
        ways = self.ways(next_)
        if mold_is_made(self.run.state):
            yield "The mold is made and not in the register yet: m NAME puts it there."
        if ways and next_.cup is not None:
            yield from remedy_lines(self.words, next_.cup, ways)
        else:
            lot = self.lot_for(next_)
            if lot is None and next_.press is Press.WEIGH and next_.cup is not None and next_.part is not None:
                for held in held_for(next_, self.shelves):
                    yield from lot_lines(self.words, next_.cup, next_.part, held)
            yield from asked(self.words, self.run, next_, lot)

    def take(self, text: str) -> Iterator[str]:
        """Do what a line asks for; what is refused changes nothing and is told with its remedy.

        Parameters
        ----------
        text : as it was typed.
        """
        try:
            yield from self.do(text)
        except MoldwrightError as error:
            yield refused(error)

    def do(self, text: str) -> Iterator[str]:
        """Do what a line asks for; raises what refuses it.

        Parameters
        ----------
        text : as it was typed.
        """
        from moldwright.desk.bench_do import do  # noqa: PLC0415

        line = bench_line(text)
        if self.pending is not None and line.word is not LineWord.QUIT:
            answer, self.pending = self.pending, None
            yield from answer(text)
        else:
            yield from do(self, line)

    def ways(self, next_: NextAct) -> tuple[CupRemedy, ...]:
        """The remedies between which is to be chosen now; none where nothing is to be chosen.

        Parameters
        ----------
        next_ : what is next.
        """
        return ways(self.run, next_, self.choosing)

    @property
    def at(self) -> AtRun:
        """The bench at the run, as it was last looked at."""
        return AtRun(self.shop, self.clock, self.run)

    def took(self, logged: Logged) -> Logged:
        """The run as it stands after something was written; gives it on.

        Parameters
        ----------
        logged : what became of it.
        """
        self.lot_typed = None
        self.run, self.written = logged.run, logged.events
        if any(isinstance(event.body, Weighed) for event in logged.events):
            self._shelves = None
        return logged

    def kept(self, logged: Logged) -> Iterator[str]:
        """Take in what was written, and tell it.

        Parameters
        ----------
        logged : what became of it.
        """
        yield from self.told(self.took(logged), said_of(self.words, logged.events[0].body))

    def told(self, logged: Logged, said: str) -> Iterator[str]:
        """What was kept, and what it shows.

        Parameters
        ----------
        logged : what became of it.
        said : what it was, in words.
        """
        at_ms = logged.events[-1].at_ms
        yield f"{clock(at_ms, self.clock.now())} kept: {said}."
        yield from self.findings(logged.found)

    def findings(self, found: Iterable[RunFinding]) -> Iterator[str]:
        """Findings in words.

        Parameters
        ----------
        found : which.
        """
        yield from (f"! {self.words.found(each)}" for each in found)

    @property
    def shelves(self) -> Sequence[OnShelf]:
        """Every lot of the shop as it stands today; looked up again after something was weighed."""
        if self._shelves is None:
            self._shelves = on_shelf(self.shop, day_of(self.clock.now()).isoformat())
        return self._shelves

    def lot_for(self, next_: NextAct) -> LotFor | None:
        """The lot that the next part is taken from: the one that was typed, else the proposed one.

        Parameters
        ----------
        next_ : what is next.
        """
        return lot_for(self.run, next_, self.shelves, self.chosen) if next_.press is Press.WEIGH else None

    def say_again(self) -> None:
        """Tell the step in full before the next answer."""
        self._introduced = None

    def turn_to(self, act: Act) -> None:
        """Turn to another act.

        Parameters
        ----------
        act : which.
        """
        self.wanted = act
        self._introduced = None


def refused(error: MoldwrightError) -> str:
    """A refusal in a line or two: what, the limit, what to do.

    Parameters
    ----------
    error : what was refused.
    """
    unit = f" {error.unit}" if error.unit else ""
    limit = "" if error.limit is None else f" (wanted: {harmless(spoken(error.limit))}{unit})"
    head = "Not written" if isinstance(error, InputRefused) else "Not done"
    return f"{head}: {harmless(spoken(error.actual))}{unit}{limit}. {harmless(remedy_line(error))}".rstrip()
