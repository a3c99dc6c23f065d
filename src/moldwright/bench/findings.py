"""What a run's log shows to be wrong or doubtful, as values: a code and its quantities, no sentence."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from moldwright.bench.acts import Act
from moldwright.log.ids import EventId
from moldwright.log.run_events import CupRef
from moldwright.plan.cautions import Severity
from moldwright.plan.ids import CautionId, CoatId
from moldwright.plan.mixes import PartKind
from moldwright.plan.quantity import Quantity


class Found(StrEnum):
    """What may be found in a run's log."""

    NOT_STARTED = "run-not-started"
    STARTED_TWICE = "run-started-twice"
    UNKNOWN_ACT = "act-not-in-plan"
    UNKNOWN_CUP = "cup-not-in-plan"
    UNKNOWN_PART = "part-not-in-cup"
    UNKNOWN_COAT = "coat-not-in-plan"
    WRONG_ORDER = "begun-before-what-it-needs"
    TOO_SOON = "begun-before-wait-was-over"
    TOO_LATE = "begun-after-window-closed"
    PART_ORDER = "parts-in-wrong-order"
    PART_OVER = "part-over"
    PART_SHORT = "part-short"
    PART_MISSING = "part-not-weighed"
    RATIO_OFF = "ratio-off"
    POURED_LATE = "poured-after-its-time"
    CUP_TOO_LARGE = "cup-too-large-for-this-air"
    MIX_OUT_OF_RANGE = "mix-temperature-out-of-range"
    CUP_PAST = "cup-past-its-time"
    AFTER_POURING = "weighed-after-pouring"
    THICKNESS_OFF = "coat-thickness-off"
    SCALE_OFF = "scale-off"
    OUT_OF_RANGE = "temperature-out-of-range"
    DAMP_AIR = "air-damp"


SEVERITY = {
    Found.NOT_STARTED: Severity.NOTE,
    Found.STARTED_TWICE: Severity.NOTE,
    Found.UNKNOWN_ACT: Severity.NOTE,
    Found.UNKNOWN_CUP: Severity.NOTE,
    Found.UNKNOWN_PART: Severity.NOTE,
    Found.UNKNOWN_COAT: Severity.NOTE,
}
"""How grave a finding is where it does not cost work: all others are to be heeded."""


@dataclass(frozen=True, slots=True)
class RunFinding:
    """One finding.

    Parameters
    ----------
    code : what.
    act, need : the act that it is about, and the one that it needed.
    cup, part, coat, scale : what it is about, where it is about one of them.
    event : the event that shows it, where it is one.
    caution : the plan's caution that tells what to do.
    quantities : its figures, as sentences quote them.
    """

    code: Found
    act: Act | None = None
    need: Act | None = None
    cup: CupRef | None = None
    part: PartKind | None = None
    coat: CoatId | None = None
    scale: str = ""
    event: EventId | None = None
    caution: CautionId | None = None
    quantities: tuple[Quantity, ...] = ()

    @property
    def severity(self) -> Severity:
        """How grave it is."""
        return SEVERITY.get(self.code, Severity.HEED)
