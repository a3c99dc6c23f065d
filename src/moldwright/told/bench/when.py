"""Moments that a screen counts to: by the server's clock, or by when a press that is still to come was made."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from moldwright.bench.now import WaitEnds


@dataclass(frozen=True, slots=True)
class When:
    """A moment: `ms` since 1970-01-01 UTC; with `after` so long after the press of that number of `ahead`."""

    ms: int
    after: int | None = None


@dataclass(frozen=True, slots=True)
class Whens:
    """When something is at the earliest, likely, at the latest."""

    low: When
    likely: When
    high: When


@dataclass(frozen=True, slots=True)
class Moments:
    """How moments are told: those that count from an event of a press to come, from that press.

    Parameters
    ----------
    presses : by when a press was made in the run that was gone ahead, its number.
    """

    presses: Mapping[int, int] = field(default_factory=dict)

    def when(self, at_ms: int, from_ms: int) -> When:
        """A moment.

        Parameters
        ----------
        at_ms : it.
        from_ms : when the event was that it counts from.
        """
        press = self.presses.get(from_ms)
        return When(at_ms) if press is None else When(at_ms - from_ms, press)

    def event(self, at_ms: int) -> When:
        """When an event was.

        Parameters
        ----------
        at_ms : it.
        """
        return self.when(at_ms, at_ms)

    def ends(self, ends: WaitEnds, from_ms: int) -> Whens:
        """When something ends.

        Parameters
        ----------
        ends : it.
        from_ms : when the event was that it counts from.
        """
        return Whens(*(self.when(each, from_ms) for each in (ends.low_ms, ends.likely_ms, ends.high_ms)))
