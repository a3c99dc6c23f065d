"""What the rest of a material still covers, cup by cup and coat by coat, in the order of the work."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from math import fsum

from moldwright.bench.cup_now import CupNow, CupState, PartNow, Refusal, refusal_of
from moldwright.bench.now import ActState
from moldwright.bench.run import RunState
from moldwright.errors import MoldwrightError
from moldwright.log.run_events import CupRef
from moldwright.mixing.correct import Correction, corrected
from moldwright.mixing.share import part_of
from moldwright.plan.mixes import MixFor, MixKind, PartKind, StuffKey
from moldwright.plan.plan import Plan

NOTHING_G = 1e-6


@dataclass(frozen=True, slots=True)
class Lacking:
    """What is lacking of a material for one cup [g]."""

    stuff: StuffKey
    part: PartKind
    mass_g: float


@dataclass(frozen=True, slots=True)
class CupCover:
    """What the rest does for one cup.

    Parameters
    ----------
    cup : which.
    for_ : what it is for.
    planned : its share of the planned cup's work.
    covered : how much of the planned cup's work is done, or can be with what is left.
    needs_g : what it still takes, all parts together.
    lacking : what is lacking for the whole of it; empty where it can be mixed whole, or is done.
    targets : what to weigh of a cup that cannot be mixed whole.
    refused : why nothing can be mixed of it.
    """

    cup: CupRef
    for_: MixFor
    planned: float
    covered: float
    needs_g: float
    lacking: tuple[Lacking, ...] = ()
    targets: Correction | None = None
    refused: Refusal | None = None

    @property
    def whole(self) -> bool:
        """Whether it is done, or can be mixed whole."""
        return not self.lacking


@dataclass(frozen=True, slots=True)
class WorkCover:
    """What the rest does for one coat, one packing, one skin or one back-fill.

    Parameters
    ----------
    for_, turn : which, of which cast.
    cups : what it does for each of its cups.
    share : how much of the work is done or can be.
    planned_mm, covered_mm : of a coat how thick it was to be, and how thick it gets all over.
    """

    for_: MixFor
    turn: int
    cups: tuple[CupCover, ...]
    share: float
    planned_mm: float | None = None
    covered_mm: float | None = None

    @property
    def whole(self) -> bool:
        """Whether all of it is done or can be."""
        return all(cup.whole for cup in self.cups)

    @property
    def lacking(self) -> tuple[Lacking, ...]:
        """What is lacking for the whole of it."""
        return added(lack for cup in self.cups for lack in cup.lacking)


def added(lacks: Iterable[Lacking]) -> tuple[Lacking, ...]:
    """What is lacking in all, by material.

    Parameters
    ----------
    lacks : of several cups.
    """
    found: dict[tuple[StuffKey, PartKind], float] = {}
    for lack in lacks:
        found[lack.stuff, lack.part] = found.get((lack.stuff, lack.part), 0.0) + lack.mass_g
    return tuple(Lacking(stuff, part, mass) for (stuff, part), mass in found.items())


def still_covers(plan: Plan, state: RunState, left_g: Mapping[StuffKey, float]) -> tuple[WorkCover, ...]:
    """What the rest of some materials still covers, in the order of the work; what is done or in a cup counts already.

    Parameters
    ----------
    plan : by which the run goes on.
    state : how far it has come.
    left_g : what is left of a material [g]; what is not named does not run out.
    """
    rest = {stuff: max(0.0, mass) for stuff, mass in left_g.items()}
    done = {act.act for act in state.acts if act.state in (ActState.DONE, ActState.WAITING, ActState.LEFT_OUT)}
    cups = [_cover(cup, cup.act in done, rest, plan.scale_g) for cup in state.cups]
    return tuple(_works(cups, plan))


def _cover(cup: CupNow, done: bool, rest: dict[StuffKey, float], step_g: float) -> CupCover:
    if cup.state is CupState.GELLED or cup.settled or done:
        part = cup.used if cup.state is CupState.GELLED else 1.0
        return CupCover(cup.ref, cup.mix.for_, cup.share * part, cup.share * part, 0.0)
    stuffs = {part.kind: part.stuff for part in cup.mix.parts}
    need = {part.kind: _needs_g(cup, part) for part in cup.parts}
    whole_g = fsum(need.values())
    lacking = tuple(
        Lacking(stuffs[kind], kind, mass - rest[stuffs[kind]])
        for kind, mass in need.items()
        if stuffs[kind] in rest and mass > rest[stuffs[kind]] + NOTHING_G
    )
    if lacking:
        return _part_of_it(cup, whole_g, lacking, rest, step_g)
    _take(need, stuffs, rest)
    return CupCover(cup.ref, cup.mix.for_, cup.share, cup.share, whole_g)


def _needs_g(cup: CupNow, part: PartNow) -> float:
    """What a cup still takes of a part; one that nothing puts right is mixed anew."""
    return part.planned_g if cup.refused is not None else part.add_g


def _part_of_it(
    cup: CupNow, whole_g: float, lacking: tuple[Lacking, ...], rest: dict[StuffKey, float], step_g: float
) -> CupCover:
    stuffs = {part.kind: part.stuff for part in cup.mix.parts}
    left = {kind: rest[stuff] for kind, stuff in stuffs.items() if stuff in rest}
    there = {} if cup.refused is not None else {part.kind: part.in_g for part in cup.parts if part.in_g > 0.0}
    try:
        told = corrected(part_of(cup.mix, cup.share, step_g), there, step_g, left)
    except MoldwrightError as error:
        return CupCover(cup.ref, cup.mix.for_, cup.share, 0.0, whole_g, lacking, refused=refusal_of(error))
    _take({part.kind: part.add_g * len(told.cups) for part in told.cups[0].parts}, stuffs, rest)
    covered = cup.share * min(1.0, told.cups[0].share * len(told.cups))
    return CupCover(cup.ref, cup.mix.for_, cup.share, covered, whole_g, lacking, told)


def _take(need: Mapping[PartKind, float], stuffs: Mapping[PartKind, StuffKey], rest: dict[StuffKey, float]) -> None:
    for kind, mass in need.items():
        if stuffs[kind] in rest:
            rest[stuffs[kind]] = max(0.0, rest[stuffs[kind]] - mass)


def _works(cups: Sequence[CupCover], plan: Plan) -> Iterator[WorkCover]:
    for (for_, turn), group in groupby(cups, key=lambda each: (each.for_, each.cup.turn)):
        of_work = tuple(group)
        planned = len(plan.mixes_for(for_))
        share = min(1.0, fsum(each.covered for each in of_work) / planned) if planned else 0.0
        coat = next((each for each in plan.glove.coats if each.id == for_.coat), None)
        if coat is None or for_.kind is not MixKind.COAT:
            yield WorkCover(for_, turn, of_work, share)
        else:
            yield WorkCover(for_, turn, of_work, share, coat.thickness_mm, share * coat.thickness_mm)
