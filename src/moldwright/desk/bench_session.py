"""A session at the bench: one line in, the lines to print out. What is told is on the disk already."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from moldwright.bench.acts import Act
from moldwright.bench.findings import RunFinding
from moldwright.desk.bench_ask import asked, lot_lines, remedy_lines
from moldwright.desk.bench_line import LineWord, bench_line
from moldwright.errors import InputRefused, MoldwrightError, spoken
from moldwright.log.event import Body, Event
from moldwright.log.ids import LotId, RunId
from moldwright.log.run_events import CupRef, Weighed
from moldwright.plan.mixes import PartKind, StuffKey
from moldwright.records.clock import BenchClock
from moldwright.records.doubts import doubts
from moldwright.records.runs.boxes import SheetBox
from moldwright.records.runs.lots import LotFor, held_back, lot_proposed, told_of
from moldwright.records.runs.next_act import NextAct, Press, mold_is_made, next_act
from moldwright.records.runs.opened import OpenRun, open_run
from moldwright.records.runs.remedies import CupRemedy, remedies
from moldwright.records.runs.write import Logged, log_all
from moldwright.records.shop import Shop
from moldwright.records.stock.shelf import OnShelf, on_shelf
from moldwright.records.told import day_of
from moldwright.sheets.bench_tell import act_lines, clock_lines, where_lines
from moldwright.sheets.bench_words import BenchWords, clock
from moldwright.text.harmless import harmless


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
        self.skipped: set[SheetBox] = set()
        self.chosen: dict[StuffKey, LotId] = {}
        self.lot_typed: StuffKey | None = None
        self.choosing: tuple[CupRef, PartKind, float] | None = None
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
                for held in held_back(self.shelves, self.stuff_of(next_)):
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
        cup = next_.cup
        if cup is None:
            return ()
        if self.choosing is not None and self.choosing[0] == cup.ref:
            return remedies(cup, self.run.state, self.choosing[1:])
        return remedies(cup, self.run.state) if next_.press is Press.PUT_RIGHT else ()

    def write(self, *bodies: Body, at_ms: int | None = None) -> Logged:
        """Write down what happened; it is on the disk when this returns.

        Parameters
        ----------
        bodies : what.
        at_ms : when, None: now.
        """
        logged = log_all(self.shop, self.clock, self.run.id, bodies, at_ms)
        self.take_in(logged)
        return logged

    def take_in(self, logged: Logged) -> None:
        """The run as it stands after something was written.

        Parameters
        ----------
        logged : what became of it.
        """
        self.lot_typed = None
        self.run, self.written = logged.run, logged.events
        if any(isinstance(event.body, Weighed) for event in logged.events):
            self._shelves = None

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
        if next_.press is not Press.WEIGH or next_.cup is None or next_.part is None:
            return None
        stuff = self.stuff_of(next_)
        chosen = self.chosen.get(stuff)
        shelf = next((each for each in self.shelves if each.lot.id == chosen), None)
        if shelf is not None:
            return told_of(shelf, stuff, next_.part.add_g)
        return lot_proposed(self.run.plan, self.run.events, self.shelves, stuff, next_.part.add_g)

    def stuff_of(self, next_: NextAct) -> StuffKey:
        """Of what the next part is.

        Parameters
        ----------
        next_ : what is next.
        """
        assert next_.cup is not None
        assert next_.part is not None
        kind = next_.part.kind
        return next(part.stuff for part in next_.cup.mix.parts if part.kind == kind)

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
    return f"{head}: {harmless(spoken(error.actual))}{unit}{limit}. {harmless(error.remedy)}".rstrip()
