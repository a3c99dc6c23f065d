"""A cup on a screen: what is in, what comes next, the lot, and how it is put right."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.log.run_events import CupRef
from moldwright.told.bench.view_press import PressShown


@dataclass(frozen=True, slots=True)
class PartShown:
    """A part of a cup: `state` in, now, to-come, short or over; `total_g` what the scale shows once it is in, `total`
    and `mass` as they are shown, `mass` being what of it is in or is to go in."""

    kind: str
    name: str
    state: str
    by: str
    total_g: float
    total: str
    mass: str


@dataclass(frozen=True, slots=True)
class CupShown:
    """A cup: what it is called, what it may hold ("" where no most is told), what is in, its parts in their order.

    `out_in_ms`: so long after its parts have met it must be on the work, of a cup whose clock does not run yet.
    `pour`: how its mix goes into the mold: turned, filled (level with the mouth), down-a-side; "" for no mold.
    """

    ref: CupRef
    name: str
    holds_g: float
    holds: str
    in_g: float
    in_text: str
    parts: tuple[PartShown, ...]
    measure: str
    out_in_ms: int | None = None
    pour: str = ""


@dataclass(frozen=True, slots=True)
class LotShown:
    """A lot: its id, what its label says, to when it keeps and where it stands, what is wrong with it (`grave`: do not
    use it), and its safety data sheet's file."""

    id: str
    name: str
    keeps: str
    doubts: tuple[str, ...]
    grave: bool
    sheet: str


@dataclass(frozen=True, slots=True)
class NextPart:
    """A part that goes in under new totals: the sentence, the figure, the press."""

    say: str
    figure: str
    unit: str
    low: float
    high: float
    press: PressShown


@dataclass(frozen=True, slots=True)
class WayShown:
    """A way to put a cup right: `kind` new-targets, divide, lift-out or start-again, its title and lines, the press
    that does it; `cup` as it then stands by new totals, and the parts that then go in."""

    kind: str
    title: str
    lines: tuple[str, ...]
    press: PressShown
    cup: CupShown | None = None
    then: tuple[NextPart, ...] = ()


@dataclass(frozen=True, slots=True)
class PutRightShown:
    """What is too much, why nothing holds the ratio where nothing does, the ways to put it right, the best first."""

    head: str
    why: str
    ways: tuple[WayShown, ...]


@dataclass(frozen=True, slots=True)
class OverRow:
    """What to do where the scale reads so much: `reads_g`, and as it is shown.

    Between two rows that lie farther apart than a step of the scale one pours on to the higher one.
    """

    reads_g: float
    reads: str
    put_right: PutRightShown
