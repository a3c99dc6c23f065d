"""What of a mold is sure on all solids that its original could be, what is not, and what would settle it: in lines."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from moldwright.plan.cautions import Caution, Severity, caution
from moldwright.plan.doubt import Hollow, Matter, MoldDoubt, Settle
from moldwright.plan.ids import StepId
from moldwright.plan.lines import Line
from moldwright.plan.peel import PeelWay
from moldwright.plan.quantity import Dimension, Quantity
from moldwright.plan.seam import ViewSide

RECEIVE = StepId("receive")
SOURCE = "computed: the found splits about solids of the original's range"
SURE = {
    Matter.PIECES: "doubt.sure.pieces",
    Matter.SEAM: "doubt.sure.seam",
    Matter.ROLLS: "doubt.sure.rolls",
    Matter.PACKING: "doubt.sure.packing",
}
WIDER = (PeelWay.SLIDE, PeelWay.ROLL, PeelWay.SLIT)
PEELS = ("doubt.sure.peel.slides", "doubt.sure.peel.unslit", "doubt.sure.peel.slit")
UNSURE = {
    Matter.PIECES: "doubt.unsure.pieces",
    Matter.SEAM: "doubt.unsure.seam",
    Matter.ROLLS: "doubt.unsure.rolls",
    Matter.PEEL: "doubt.unsure.peel",
    Matter.PACKING: "doubt.unsure.packing",
}
UNTOLD = {
    Matter.PIECES: "doubt.untold.pieces",
    Matter.SEAM: "doubt.untold.seam",
    Matter.ROLLS: "doubt.untold.rolls",
    Matter.PEEL: "doubt.untold.peel",
    Matter.PACKING: "doubt.unsure.packing",
}
AT_THE_WORK = frozenset((Matter.SEAM, Matter.ROLLS, Matter.PACKING))
"""What is looked at while the shell is made; all else is measured on the bare original."""
SETTLED = {
    Settle.HOLLOWS: "doubt.settled.hollows",
    Settle.GIRTHS: "doubt.settled.girths",
    Settle.WATER: "doubt.settled.water",
    Settle.VIEWS: "doubt.settled.views",
    Settle.PHOTOS: "doubt.settled.photos",
}
SIDES = {
    ViewSide.FRONT: "doubt.hollow.front",
    ViewSide.RIGHT: "doubt.hollow.right",
    ViewSide.BACK: "doubt.hollow.back",
    ViewSide.LEFT: "doubt.hollow.left",
}


@dataclass(frozen=True, slots=True)
class Said:
    """Lines, and what they quote."""

    lines: tuple[Line, ...]
    quantities: tuple[Quantity, ...]


def sure_lines(doubt: MoldDoubt) -> Said:
    """What holds on all solids.

    Parameters
    ----------
    doubt : of the plan.
    """
    keys = (_peels(doubt) if matter is Matter.PEEL else (SURE[matter],) for matter in doubt.sure)
    return Said(tuple(Line(key) for each in keys for key in each), tuple(_quoted(doubt)))


def _peels(doubt: MoldDoubt) -> tuple[str, ...]:
    """The most that peeling asks for on any of them; nothing where nobody peeled one."""
    ways = [solid.way for solid in doubt.solids]
    return () if PeelWay.UNKNOWN in ways else (PEELS[max(map(WIDER.index, ways))],)


def unsure_lines(doubt: MoldDoubt) -> Said:
    """What does not, and what would settle it.

    Parameters
    ----------
    doubt : of the plan.
    """
    return Said((*_unsure(doubt, doubt.unsure), *_settled(doubt)), tuple(_quoted(doubt)))


def _unsure(doubt: MoldDoubt, of: Sequence[Matter]) -> Iterator[Line]:
    if not doubt.sure:
        yield Line("doubt.nothing-sure")
    yield from _open(doubt, of)


def _open(doubt: MoldDoubt, of: Sequence[Matter]) -> Iterator[Line]:
    """What may be otherwise of some matters, and first, where it is so of one, why all solids do not tell it."""
    if not set(doubt.untold).isdisjoint(of):
        yield Line("doubt.untold")
    yield from _each_unsure(doubt, of)


def _each_unsure(doubt: MoldDoubt, of: Sequence[Matter]) -> Iterator[Line]:
    yield from (Line((UNTOLD if matter in doubt.untold else UNSURE)[matter]) for matter in of)


def _settled(doubt: MoldDoubt) -> Iterator[Line]:
    yield from (Line(SETTLED[way]) for way in doubt.settled_by)


def hollow_lines(hollow: Hollow) -> Said:
    """A place that is to be measured.

    Parameters
    ----------
    hollow : where, how deep it may be, what it would take.
    """
    quantities = (
        Quantity("hollow.up", Dimension.LENGTH, hollow.at[2]),
        Quantity("hollow.depth", Dimension.LENGTH, hollow.depth_mm),
        Quantity("hollow.packing", Dimension.VOLUME, hollow.packing_ml),
    )
    return Said((Line(SIDES[side_of(hollow)]), Line("doubt.hollow.measure")), quantities)


def side_of(hollow: Hollow) -> ViewSide:
    """The side that it lies on, seen from above.

    Parameters
    ----------
    hollow : where it is.

    >>> side_of(Hollow((3.0, -20.0, 90.0), 4.0, 1.0))
    <ViewSide.FRONT: 'front'>
    """
    x, y, _ = hollow.at
    if abs(x) > abs(y):
        return ViewSide.RIGHT if x > 0 else ViewSide.LEFT
    return ViewSide.BACK if y > 0 else ViewSide.FRONT


def _quoted(doubt: MoldDoubt) -> Iterator[Quantity]:
    yield Quantity("doubt.solids", Dimension.COUNT, len(doubt.solids) + 1)
    yield Quantity("doubt.packing", Dimension.VOLUME, doubt.packing_ml)
    yield Quantity("doubt.stiff", Dimension.VOLUME, max(solid.stiff_ml for solid in doubt.solids))
    yield Quantity("doubt.caught", Dimension.SHARE, max(solid.caught_share for solid in doubt.solids))
    yield Quantity("doubt.slackest", Dimension.FACTOR, doubt.stretch.low)
    yield Quantity("doubt.stretched", Dimension.FACTOR, doubt.stretch.high)
    yield Quantity("doubt.unslit", Dimension.FACTOR, doubt.unslit_below)
    if doubt.tight is not None:
        yield Quantity("girth.up", Dimension.LENGTH, doubt.tight.at[2])
    yield Quantity("doubt.fewest", Dimension.COUNT, min(solid.pieces for solid in doubt.solids))
    yield Quantity("doubt.most", Dimension.COUNT, max(solid.pieces for solid in doubt.solids))


def sure_cautions(doubt: MoldDoubt | None, packing: StepId) -> Iterator[Caution]:
    """Hollows to measure, what is sure and what a tape settles, where the original is looked over: under rubber nobody
    measures it any more. What is looked at while the shell is made, where it is packed for it.

    Parameters
    ----------
    doubt : of the plan; None where the original is known.
    packing : the step after which undercuts are packed.
    """
    if doubt is None:
        return
    for number, hollow in enumerate(doubt.hollows, 1):
        yield _heed(RECEIVE, f"doubt-hollow-{number}", hollow_lines(hollow))
    sure = sure_lines(doubt)
    bare = [matter for matter in doubt.unsure if matter not in AT_THE_WORK]
    lines = (Line("doubt.tried"), *sure.lines, *_unsure(doubt, bare), *_settled(doubt))
    yield _heed(RECEIVE, "doubt-mold", Said(lines, sure.quantities))
    shell = tuple(_open(doubt, [matter for matter in doubt.unsure if matter in AT_THE_WORK]))
    if shell:
        yield _heed(packing, "doubt-shell", Said(shell, sure.quantities))


def _heed(step: StepId, rule: str, said: Said) -> Caution:
    return caution(step, rule, Severity.HEED, said.lines, SOURCE, said.quantities, particular=True, ruins=True)
