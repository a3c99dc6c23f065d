"""What to do where the scale reads too much, reading by reading: so that an over-pour is put right offline too."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import count

from moldwright.bench.cup_alone import CupAlone
from moldwright.bench.cup_now import CupNow, PartNow
from moldwright.bench.run import RunFold
from moldwright.log.event import Body, Event
from moldwright.log.ids import LotId
from moldwright.mixing.scale_steps import grams
from moldwright.plan.mixes import MeasuredBy, PartKind
from moldwright.records.runs.ahead import Stand, not_yet
from moldwright.records.runs.lots import lot_proposed
from moldwright.records.runs.next_act import Press, as_read, as_told
from moldwright.records.runs.remedies import RemedyKind, remedies
from moldwright.told.bench.cups import put_right_shown
from moldwright.told.bench.figures import limits_of
from moldwright.told.bench.screen_words import ScreenWords
from moldwright.told.bench.view_cup import OverRow, PutRightShown

ROWS = 30
"""Readings of one part at the most: our own."""
FINE = 12
"""So many readings just past the limit lie one step of the scale apart, then ever farther: our own."""
WIDER = 1.4
_TRIES = count()


class CupGoing:
    """A cup into which one thing after the other goes, nobody writing it down.

    Parameters
    ----------
    stand : the run.
    alone : the cup.
    """

    def __init__(self, stand: Stand, alone: CupAlone) -> None:
        self._stand, self._alone, self._went = stand, alone, list[Event]()
        self._call = next(_TRIES)

    def goes(self, body: Body) -> CupNow:
        """The cup once something more was written of it.

        Parameters
        ----------
        body : what.
        """
        n = len(self._went)
        at_ms = max([self._stand.run.state.now_ms, *(e.at_ms for e in self._stand.run.events[-1:])]) + 1 + n
        self._went.append(not_yet(self._stand.run, f"over-{self._call:x}-{n:03}", at_ms, body))
        return self._alone.after(self._went)

    def part(self, cup: CupNow, part: PartNow, lot: LotId | None) -> CupNow:
        """The cup once a part went in as it was asked for.

        Parameters
        ----------
        cup, part : what was asked for.
        lot : that it is taken from.
        """
        return self.goes(replace(as_told(cup, part), lot=lot))


class Lots:
    """The lots that the parts of a cup are taken from, each looked up once.

    Parameters
    ----------
    stand : the run.
    """

    def __init__(self, stand: Stand) -> None:
        self._stand = stand
        self._known: dict[PartKind, LotId | None] = {}

    def of(self, kind: PartKind) -> LotId | None:
        """The lot of a part.

        Parameters
        ----------
        kind : of the cup in hand.
        """
        if kind not in self._known:
            run, cup, lots = self._stand.run, self._stand.next.cup, self._stand.shelf.lots
            stuff = next(part.stuff for part in cup.mix.parts if part.kind == kind) if cup is not None else None
            chosen = self._stand.place.chosen.get(stuff) if stuff is not None else None
            found = lot_proposed(run.plan, run.events, lots, stuff, 0.0) if stuff is not None else None
            self._known[kind] = chosen or (found.shelf.lot.id if found is not None else None)
        return self._known[kind]


def put_right_at(words: ScreenWords, fold: RunFold, stand: Stand) -> PutRightShown | None:
    """The ways to put the cup in hand right; None where nothing is to be chosen.

    Parameters
    ----------
    words : of the plan.
    fold : of the plan.
    stand : the run.
    """
    cup = stand.next.cup
    if cup is None or not stand.ways:
        return None
    going = CupGoing(stand, CupAlone(fold, stand.run.events, cup.ref, stand.run.state.now_ms))
    return put_right_shown(words, cup, stand.ways, going.part, Lots(stand).of)


def is_poured(stand: Stand) -> bool:
    """Whether a part is asked for that can be poured over on a scale.

    Parameters
    ----------
    stand : the run.
    """
    part = stand.next.part
    weighs = stand.next.press is Press.WEIGH and part is not None and part.by is MeasuredBy.SCALE
    return weighs and not stand.ways


def over_rows(words: ScreenWords, fold: RunFold, stand: Stand) -> tuple[OverRow, ...]:
    """What to do with readings past the limit, up to where nothing but another cup helps.

    Parameters
    ----------
    words : of the plan.
    fold : of the plan.
    stand : the run, where a part is asked for.
    """
    cup, part = stand.next.cup, stand.next.part
    if not is_poured(stand) or cup is None or part is None:
        return ()
    limits = limits_of(words, cup, part)
    assert limits is not None
    alone, lots = CupAlone(fold, stand.run.events, cup.ref, stand.run.state.now_ms), Lots(stand)
    rows = []
    for reads_g in _readings(limits.high, words.plan.scale_g):
        going = CupGoing(stand, alone)
        now = going.goes(replace(as_read(cup, part, reads_g), lot=lots.of(part.kind)))
        ways = remedies(now, stand.run.state, (part.kind, part.target_g))
        if not ways:
            continue
        shown = put_right_shown(words, now, ways, going.part, lots.of)
        rows.append(OverRow(reads_g, words.mass(reads_g), shown))
        if all(way.kind is RemedyKind.START_AGAIN for way in ways):
            break
    return tuple(rows)


def _readings(high_g: float, step_g: float) -> Iterator[float]:
    """Readings past a limit: one step apart, then ever farther."""
    first, steps = round(high_g / step_g), 0
    for n in range(ROWS):
        steps = max(steps + 1, int(steps * WIDER)) if n >= FINE else steps + 1
        yield grams(first + steps, step_g)
