"""Rubber behind a neck: how far it would have to draw out to leave a hollow of the piece, and where it cannot."""

from __future__ import annotations

import math
from dataclasses import dataclass

from moldwright.errors import NoSafePlan
from moldwright.found_at import FoundAt, Point3
from moldwright.ways import figure

STIFF_DRAWN = 1.5
"""Rubber that is thicker than its sheet says a glove peels is drawn out to so many times its length; our own."""
LEAST_ML = 1.0
"""Smaller hollows are told nowhere: what tears off in one is picked out. Common practice, no source."""
WIDER = 1.02
"""By so much a neck is widened from one try to the next where it is sought how wide it must be."""


@dataclass(frozen=True, slots=True)
class NeckedHollow:
    """A hollow of the piece that is wider than the way into it.

    Parameters
    ----------
    at : the middle of the greatest ball in it [mm].
    neck : where the way out of it is narrowest [mm].
    ball_mm : diameter of the greatest ball in it [mm].
    neck_mm : diameter of the greatest ball that passes in [mm].
    neck_area_mm2 : how large the way is there [mm2].
    volume_ml : about what is behind the neck [ml].
    """

    at: Point3
    neck: Point3
    ball_mm: float
    neck_mm: float
    neck_area_mm2: float
    volume_ml: float

    def rubber_mm(self, glove_mm: float) -> float:
        """How thick the rubber is in it: up to what the coats leave free of the neck [mm].

        Parameters
        ----------
        glove_mm : all coats together [mm].

        Source: our own.
        """
        free_mm = self.neck_mm / 2 - glove_mm
        return self.ball_mm / 2 - free_mm if free_mm > 0 else self.ball_mm

    def drawn_out(self, glove_mm: float) -> float:
        """How many times its own length rubber has to become to pass the neck: its section in the hollow over the
        neck's, and where the neck is long and narrow at least its thickness over the neck's.

        Rubber keeps its volume, so what it gains in length it loses in section.

        Parameters
        ----------
        glove_mm : all coats together [mm].

        Source: a closed form for a round neck and for a long one.

        >>> bottle = NeckedHollow((0.0, 0.0, 40.0), (0.0, 0.0, 90.0), 60.0, 20.0, math.pi * 10.0**2, 100.0)
        >>> round(bottle.drawn_out(12.0), 6)
        9.0
        """
        free_mm = max(self.neck_mm / 2 - glove_mm, 0.0)
        section_mm2 = math.pi * ((self.ball_mm / 2) ** 2 - free_mm**2)
        return max(section_mm2 / self.neck_area_mm2, (self.ball_mm / 2 - free_mm) / (self.neck_mm / 2))

    def widened(self, share: float) -> NeckedHollow:
        """The same with a wider neck.

        Parameters
        ----------
        share : by which its width is multiplied.

        Source: a closed form.
        """
        area_mm2 = self.neck_area_mm2 * share**2
        return NeckedHollow(self.at, self.neck, self.ball_mm, self.neck_mm * share, area_mm2, self.volume_ml)


@dataclass(frozen=True, slots=True)
class HollowsFound:
    """All hollows of a piece that are wider than the way into them, the largest first."""

    found: tuple[NeckedHollow, ...]


@dataclass(frozen=True, slots=True)
class RubberGives:
    """What a rubber and its coats allow.

    Parameters
    ----------
    glove_mm : all coats together [mm].
    peels_mm : thicker rubber does not peel [mm].
    stretches : how many times its own length thin rubber may be stretched.
    """

    glove_mm: float
    peels_mm: float
    stretches: float

    def most(self, hollow: NeckedHollow) -> float:
        """To how many times its length the rubber in a hollow may be drawn out.

        Parameters
        ----------
        hollow : in which it is.

        Source: our own.
        """
        thin = hollow.rubber_mm(self.glove_mm) <= self.peels_mm
        return self.stretches if thin else STIFF_DRAWN

    def lets_go(self, hollow: NeckedHollow) -> bool:
        """Whether the rubber leaves it.

        Parameters
        ----------
        hollow : in which it is.

        Source: our own.
        """
        return hollow.drawn_out(self.glove_mm) <= self.most(hollow)

    def needed_mm(self, hollow: NeckedHollow) -> float:
        """How wide the neck must be for the rubber to leave [mm].

        Parameters
        ----------
        hollow : in which it is.

        Source: our own.
        """
        while not self.lets_go(hollow) and hollow.neck_mm < hollow.ball_mm:
            hollow = hollow.widened(WIDER)
        return min(hollow.neck_mm, hollow.ball_mm)


def trapped(hollows: HollowsFound, gives: RubberGives) -> NeckedHollow | None:
    """The hollow that holds the rubber most; None where it leaves every one.

    Parameters
    ----------
    hollows : of the piece.
    gives : what the rubber allows.

    Source: our own.
    """
    held = [hollow for hollow in hollows.found if hollow.volume_ml >= LEAST_ML and not gives.lets_go(hollow)]
    return max(held, key=lambda hollow: hollow.drawn_out(gives.glove_mm), default=None)


def rubber_trapped(hollow: NeckedHollow, gives: RubberGives, place: FoundAt) -> NoSafePlan:
    """The refusal.

    Parameters
    ----------
    hollow : that holds the rubber.
    gives : what the rubber allows.
    place : where on the piece.

    Source: our own.
    """
    neck, high = figure(round(hollow.neck_mm, 1), "mm"), figure(round(hollow.neck[2]), "mm")
    wide, need = figure(round(hollow.ball_mm, 1), "mm"), figure(round(gives.needed_mm(hollow), 1), "mm")
    remedy = (
        f"Behind a neck of {neck}, {high} over the board, is a hollow {wide} wide that rubber could not be drawn out "
        f"of: close the hollow in the scan (the cast is then solid there), open its neck to {need}, or cut the "
        "original apart there and plan each part."
    )
    actual, limit = hollow.drawn_out(gives.glove_mm), gives.most(hollow)
    return NoSafePlan("rubber-trapped", round(actual, 1), round(limit, 1), "times its length", remedy, place=place)
