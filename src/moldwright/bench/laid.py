"""The acts of a run as they are laid out, with what is looked up in them at every fold."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from moldwright.bench.acts import Act, PlannedAct
from moldwright.log.run_events import CupRef
from moldwright.plan.ids import MixId
from moldwright.plan.steps import StepPlan


@dataclass(frozen=True, slots=True)
class Laid:
    """The acts of a run.

    Parameters
    ----------
    acts : in the order of the work.
    by_act : the same by what they are.
    place : where each stands in that order.
    followers : of each act in its order, the places of what needs it.
    mixing : the step of every cup.
    cups : in the order of the acts that mix them.
    """

    acts: tuple[PlannedAct, ...]
    by_act: Mapping[Act, PlannedAct]
    place: Mapping[Act, int]
    followers: tuple[tuple[int, ...], ...]
    mixing: Mapping[MixId, StepPlan]
    cups: tuple[LaidCup, ...]

    def in_order(self, acts: Iterable[Act]) -> list[Act]:
        """Acts in the order of the work.

        Parameters
        ----------
        acts : of the run.
        """
        return sorted(acts, key=self.place.__getitem__)

    def awake(self, acts: Iterable[Act]) -> list[int]:
        """The places of those acts, and of what needs one of them directly, in order.

        Parameters
        ----------
        acts : any; what is not of the run counts in nothing.
        """
        found = {self.place[act] for act in acts if act in self.place}
        return sorted(found.union(*(self.followers[n] for n in found)))


@dataclass(frozen=True, slots=True)
class LaidCup:
    """A planned cup of an act: the act that mixes it, the one that brings it onto the work, which cup, as it is called
    when it is mixed first, and by what its fillings are known."""

    act: PlannedAct
    use: Act
    mix: MixId
    ref: CupRef
    key: tuple[MixId, int]


def laid_out(acts: Iterable[PlannedAct]) -> Laid:
    """The acts of a run with what is looked up in them.

    Parameters
    ----------
    acts : in the order of the work.
    """
    acts = tuple(acts)
    place = {each.act: n for n, each in enumerate(acts)}
    followers: list[list[int]] = [[] for _ in acts]
    for n, each in enumerate(acts):
        for need in dict.fromkeys(each.needs):
            if need in place:
                followers[place[need]].append(n)
    return Laid(
        acts,
        {each.act: each for each in acts},
        place,
        tuple(map(tuple, followers)),
        {mix: each.step for each in acts for mix in each.step.mixes},
        tuple(_cups(acts)),
    )


def _cups(acts: Sequence[PlannedAct]) -> Iterator[LaidCup]:
    """A cup is brought onto the work by its own act, or by the coat's own work behind its mixing."""
    for one, other in pairwise((*acts, None)):
        assert one is not None
        coat = one.step.coat
        lays = other is not None and coat is not None and other.step.coat == coat and not other.step.mixes
        use = other.act if lays and other is not None else one.act
        yield from (LaidCup(one, use, mix, CupRef(mix, one.act.turn), (mix, one.act.turn)) for mix in one.step.mixes)
