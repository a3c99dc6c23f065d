"""The runs that used a lot, folded from what bears on it: a pure part of a lot's story."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import fsum

from moldwright.bench.frame import RunFrame, frame_of_standing
from moldwright.log.event import Event
from moldwright.log.ids import LotId, MoldId, PlanId, RunId
from moldwright.log.lot_events import Stuff
from moldwright.log.run_events import CupRef, Gelled, MoldRegistered, Poured, Problem, Weighed
from moldwright.log.standing import standing
from moldwright.plan.ids import MixId
from moldwright.plan.mixes import MixPlan, PartKind, StuffKey
from moldwright.records.stock.left import FINE

RUN_KINDS = (
    "started", "replanned", "mold-registered", "ended", "poured", "gelled", "problem", "undone",
)  # fmt: skip
"""Events of a run that bear on what a lot went into, beside the weighings of it."""
Mixes = Mapping[PlanId, tuple[MixPlan, ...]]


@dataclass(frozen=True, slots=True)
class LotUse:
    """What of a lot went into one part of one cup.

    `run`, `name`: which run, and of which piece; `mold`: of what is of a mold that one, once it is in the register;
    `first_ms`: when it was first weighed. `poured`: the cup is on the work; `gelled`: it was lost; neither: it is
    still to be poured, unless `ended`. `right`: whether the plan takes this part from such a material; None: no plan
    says. `problems`: what went wrong with that cup, or in that turn of the run.
    """

    run: RunId
    name: str
    mold: MoldId | None
    lot: LotId
    cup: CupRef
    part: PartKind
    mass_g: float
    first_ms: int
    poured: bool
    gelled: bool
    ended: bool
    right: bool | None
    problems: tuple[Problem, ...]

    @property
    def unpoured(self) -> bool:
        """Whether it stands in a cup still."""
        return not (self.poured or self.gelled or self.ended)


def part_takes(mixes: Iterable[MixPlan], mix: MixId, part: PartKind, stuff: Stuff) -> bool | None:
    """Whether a part of a cup is taken from such a material; None where no plan says.

    Parameters
    ----------
    mixes : the cups of the run's plan.
    mix : the cup.
    part : its part.
    stuff : what the lot is of.
    """
    wanted = {each.stuff for cup in mixes if cup.id == mix for each in cup.parts if each.kind is part}
    known = wanted - {StuffKey()}
    return stuff.key in known if known else None


def uses_in_run(run: RunId, events: Iterable[Event], lots: Mapping[LotId, Stuff], mixes: Mixes) -> tuple[LotUse, ...]:
    """What of some lots went into a run, cup by cup, in the order in which it was first weighed.

    Parameters
    ----------
    run : which.
    events : of it, in any order; the weighings of these lots and those of `RUN_KINDS` suffice.
    lots : what the lots are of.
    mixes : cups of the plans by which the run went.
    """
    stands = standing(events)
    frame = frame_of_standing(stands)
    cups = tuple(mix for plan in frame.plans for mix in mixes.get(plan, ()))
    found: dict[tuple[CupRef, PartKind, LotId], list[tuple[int, float]]] = {}
    for event in stands:
        if isinstance(event.body, Weighed) and event.body.lot in lots:
            body = event.body
            assert body.lot is not None
            found.setdefault((body.cup, body.part, body.lot), []).append((event.at_ms, body.mass_g))
    return tuple(_use(run, frame, stands, key, weighed, lots, cups) for key, weighed in found.items())


def _use(
    run: RunId,
    frame: RunFrame,
    stands: Sequence[Event],
    key: tuple[CupRef, PartKind, LotId],
    weighed: Sequence[tuple[int, float]],
    lots: Mapping[LotId, Stuff],
    cups: Sequence[MixPlan],
) -> LotUse:
    cup, part, lot = key
    bodies = [event.body for event in stands]
    return LotUse(
        run,
        frame.started.name if frame.started else "",
        _mold(frame, bodies) if cup.turn == 0 else None,
        lot,
        cup,
        part,
        round(fsum(mass_g for _, mass_g in weighed), FINE),
        weighed[0][0],
        any(isinstance(body, Poured) and body.cup == cup for body in bodies),
        any(isinstance(body, Gelled) and body.cup == cup for body in bodies),
        frame.ended_ms is not None,
        part_takes(cups, cup.mix, part, lots[lot]),
        tuple(body for body in bodies if isinstance(body, Problem) and _about(body, cup)),
    )


def _mold(frame: RunFrame, bodies: Iterable[object]) -> MoldId | None:
    """The mold that the run made itself, or casts from."""
    made = [body.mold for body in bodies if isinstance(body, MoldRegistered)]
    return made[-1] if made else frame.mold


def _about(problem: Problem, cup: CupRef) -> bool:
    """Whether a problem is told of this cup, or of its turn of the run alone."""
    return problem.cup == cup if problem.cup is not None else problem.turn == cup.turn
