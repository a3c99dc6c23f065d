"""What many folds of one run have in common: kept by all that it depends on, so that a fold is the same with and
without it.

One of these goes with one plan, one way in which its acts are laid out and one air; what else a value depends on is
its key beside it. Two threads that use one at a time may reckon a value twice, no more.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import Generic, TypeVar

from moldwright.bench.acts import Act
from moldwright.bench.clocks import Clocks
from moldwright.bench.cup_now import CupNow
from moldwright.bench.fillings import Fillings
from moldwright.bench.laid import Laid
from moldwright.bench.now import ActNow, WaitEnds
from moldwright.log.run_events import CupRef
from moldwright.plan.ids import MixId

K = TypeVar("K")
V = TypeVar("V")


class LastOf(Generic[K, V]):
    """Of each thing its last value, with the key that this was reckoned from."""

    def __init__(self) -> None:
        self._last: dict[K, tuple[Hashable, V]] = {}

    def of(self, thing: K, key: Hashable, reckon: Callable[[], V]) -> V:
        """The value of a thing, reckoned anew where its key is another one.

        Parameters
        ----------
        thing : whose.
        key : all that the value depends on.
        reckon : gives it.
        """
        there = self._last.get(thing)
        if there is not None and there[0] == key:
            return there[1]
        value = reckon()
        self._last[thing] = key, value
        return value


@dataclass(frozen=True, slots=True)
class FoldKept:
    """What folds of one run in one air have in common.

    Parameters
    ----------
    laid : its acts.
    clocks : by what its times go.
    waits, asleep, acts, fillings, bare, cups : what was told last of each; bare: of a cup of which nothing is written.
    """

    laid: Laid
    clocks: Clocks
    waits: LastOf[Act, WaitEnds | None] = field(default_factory=LastOf)
    asleep: LastOf[bool, tuple[ActNow, ...]] = field(default_factory=LastOf)
    acts: LastOf[Act, ActNow] = field(default_factory=LastOf)
    fillings: LastOf[tuple[MixId, int], Fillings] = field(default_factory=LastOf)
    bare: dict[CupRef, CupNow] = field(default_factory=dict)
    cups: LastOf[CupRef, CupNow] = field(default_factory=LastOf)
