"""One cup of a run, followed by itself: as it stands after entries that are about it alone."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from moldwright.bench.cup_now import CupNow
from moldwright.bench.cups import cups_of
from moldwright.bench.fillings import fillings
from moldwright.bench.run import RunFold
from moldwright.log.event import Event
from moldwright.log.run_events import CupRef, CupTemperature, Divided, Gelled, Poured, Weighed
from moldwright.log.standing import standing


class CupAlone:
    """A cup that something goes into, without the rest of its run being told anew.

    Parameters
    ----------
    fold : of the run's plan.
    events : all of the run.
    ref : which cup.
    now_ms : the moment.
    """

    def __init__(self, fold: RunFold, events: Iterable[Event], ref: CupRef, now_ms: int) -> None:
        self._bench, stands = fold.bench(events, now_ms)
        self._ref = ref
        self._own = [event for event in stands if _is_of(event, ref)]
        laid = (each for each in self._bench.kept.laid.cups if (each.mix, each.ref.turn) == (ref.mix, ref.turn))
        self._laid = next(laid)

    def after(self, more: Sequence[Event]) -> CupNow:
        """The cup as it stands after some more entries.

        Parameters
        ----------
        more : about this cup.
        """
        cups, _ = fillings(self._bench.mixes, standing((*self._own, *more)))
        bench = replace(self._bench, fillings=cups)
        return next(cup for cup in cups_of(self._laid, bench) if cup.ref == self._ref)


def _is_of(event: Event, ref: CupRef) -> bool:
    match event.body:
        case Weighed(cup=cup) | Poured(cup=cup) | Gelled(cup=cup) | CupTemperature(cup=cup) | Divided(cup=cup):
            return (cup.mix, cup.turn) == (ref.mix, ref.turn)
        case _:
            return False
