"""What a screen at the bench shows, as values that become JSON: words and figures are final, moments are counted by
the screen, and every press carries what it writes.

A screen shows `BenchTold.view`. After a press it shows the next entry of `ahead`, with the moments that count from its
presses, until the server has answered with a new one.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from moldwright.log.ids import PlanId, RunId
from moldwright.plan.ids import StepId
from moldwright.told.bench.view_cup import CupShown, LotShown, OverRow, PutRightShown
from moldwright.told.bench.view_press import EntryShown, PressShown
from moldwright.told.bench.view_step import LayerState, StepShown, WallLayer
from moldwright.told.bench.when import When, Whens


@dataclass(frozen=True, slots=True)
class ActShown:
    """The act in hand: its step, of which cast of how many, which cup of how many of this act.

    `number` as it is printed; `turn`, `casts`: 0 where it is of no cast; `cup`, `cups`: 0 where none is in hand.
    `name`: "step 36 of cast 2". `begun`: it is in hand, not only next.
    """

    step: StepId
    number: int
    turn: int
    casts: int
    name: str
    begun: bool
    cup: int = 0
    cups: int = 0


@dataclass(frozen=True, slots=True)
class FigureShown:
    """A figure in the reader's units: "82.8" and "g". `value` in grams or milliliters; `unit_is`: one `unit`."""

    text: str
    unit: str
    value: float
    unit_is: float


@dataclass(frozen=True, slots=True)
class LimitsShown:
    """Between which readings it is right, both counted in: in grams or milliliters, and as they are shown."""

    low: float
    high: float
    low_text: str
    high_text: str


@dataclass(frozen=True, slots=True)
class CupClockShown:
    """A cup's clock: from when its parts met; on the work by `out_by`, all done with it by `work_by`. In the last fifth
    before `out_by` from `last_from` on. `past`, `spent`: what to do past the one and the other."""

    cup: str
    start: When
    last_from: When
    out_by: When
    work_by: When
    past: str
    spent: str


@dataclass(frozen=True, slots=True)
class WindowShown:
    """A tack window: `next` is to begin between `opens.low` and `closes.likely`; closing from `closing` on."""

    of: str
    next: str
    next_step: StepId
    next_turn: int
    start: When
    opens: Whens
    closing: When
    closes: Whens
    late: str


@dataclass(frozen=True, slots=True)
class WaitShown:
    """What cures, dries or sets by itself, for what waits for it; over between low and high of `ends`."""

    of: str
    next: str
    start: When
    ends: Whens


@dataclass(frozen=True, slots=True)
class OtherAct:
    """What else is in hand or may be begun, `since`: from when on; None: now."""

    step: StepId
    turn: int
    number: int
    name: str
    title: str
    begun: bool
    since: When | None = None


@dataclass(frozen=True, slots=True)
class BoxShown:
    """A box of the sheet that is to be written in, and what is asked for: text, air, lengths, mass or length."""

    step: StepId
    turn: int
    key: str
    label: str
    what: str


@dataclass(frozen=True, slots=True)
class WallState:
    """The wall behind the step: which of `BenchTold.walls`, and how far each of its layers is."""

    wall: str
    layers: tuple[LayerState, ...]


@dataclass(frozen=True, slots=True)
class BenchView:
    """One state of the screen.

    Parameters
    ----------
    press : what is asked for: weigh, put-right, lay, write, number, done, wait, end, ended.
    act : in hand; None while all must wait or all is done.
    say, figure, more : the big sentence, the big figure where there is one, the small line.
    limits : between which the figure is right, where it is weighed or drawn.
    heed : what to do where parts went in out of their order.
    cup : that is weighed or laid.
    lot : that the part is taken from; `lots`: every lot of it that stands there.
    box : that is written in.
    put_right : the ways to put a cup right, where one is to be chosen.
    presses : what may be pressed, the main one first.
    aside : what may be written down beside it.
    clocks, windows, waits : what runs.
    wall : the drawing beside it; None while there is no step.
    others : what else may be turned to.
    mold_made : the run's mold is made and in no register yet.
    """

    press: str
    act: ActShown | None
    say: str
    figure: FigureShown | None
    more: str
    limits: LimitsShown | None
    heed: tuple[str, ...]
    cup: CupShown | None
    lot: LotShown | None
    lots: tuple[LotShown, ...]
    box: BoxShown | None
    put_right: PutRightShown | None
    presses: tuple[PressShown, ...]
    aside: tuple[PressShown, ...]
    clocks: tuple[CupClockShown, ...]
    windows: tuple[WindowShown, ...]
    waits: tuple[WaitShown, ...]
    wall: WallState | None
    others: tuple[OtherAct, ...]
    mold_made: bool


@dataclass(frozen=True, slots=True)
class AheadShown:
    """The screen after one more press that goes right; the first is before press 0, so that entry n comes after it.

    Parameters
    ----------
    view : it.
    not_before : the wait that must be over before its act is begun: until its `low` the screen shows what waits.
    over : of a part that is weighed, what to do with readings past the limit.
    turns : the screens after a press that turns the work aside, by its `turn`, each if the press before goes right.
    """

    view: BenchView
    not_before: Whens | None = None
    over: tuple[OverRow, ...] = ()
    turns: Mapping[str, tuple[AheadShown, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class FoundShown:
    """What is wrong or doubtful in the run's log, in a sentence; `severity`: note, heed, stop."""

    severity: str
    text: str


@dataclass(frozen=True, slots=True)
class BenchTold:
    """A run for a screen.

    Parameters
    ----------
    run, code, piece, plan : which.
    mark : of the entries that it was made from: another one when something new is written.
    now_ms : the server's clock.
    units : "metric" or "us": in which bare typed numbers are.
    scale_step : of the scale, as people read it.
    casts : how many the run is for.
    view : the screen.
    over, turns : of it, as `AheadShown`'s.
    ahead : the next screens, each if the press before goes right; `ahead[0]` comes after press 0, which is on `view`.
    steps : what the steps say, by their ids, all that are on `view` or `ahead`.
    walls : the layers of the walls, the first made first.
    mishaps : what goes wrong in this trade, to choose from.
    log : the last entries, the newest first.
    found : what is wrong or doubtful.
    """

    run: RunId
    code: str
    piece: str
    plan: PlanId | None
    mark: str
    now_ms: int
    units: str
    scale_step: str
    casts: int
    view: BenchView
    over: tuple[OverRow, ...]
    turns: Mapping[str, tuple[AheadShown, ...]]
    ahead: tuple[AheadShown, ...]
    steps: Mapping[StepId, StepShown]
    walls: Mapping[str, tuple[WallLayer, ...]]
    mishaps: tuple[str, ...]
    log: tuple[EntryShown, ...]
    found: tuple[FoundShown, ...]
