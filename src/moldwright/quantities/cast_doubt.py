"""How uncertain a cast's volumes and weight are where its original was not scanned."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

from moldwright.cast.piece import Fill
from moldwright.mold.measures import MoldMeasures
from moldwright.ranges import SURELY, Range, Spread


@dataclass(frozen=True, slots=True)
class CastDoubt:
    """Factors at 90 % on the cavity, the skin, the back-fill and the finished piece's weight, likely 1."""

    cavity: Range = SURELY
    skin: Range = SURELY
    backfill: Range = SURELY
    mass: Range = SURELY


def cast_doubt(measures: MoldMeasures, fill: Fill, kept: Fill, skin_g_ml: float, back_g_ml: float) -> CastDoubt:
    """The factors of one cast; the plinth is as it is planned, the piece on it is not.

    The piece's volume and the skin on its walls are uncertain for reasons of their own, so their shares of a sum or of
    a difference add as squares.

    Parameters
    ----------
    measures : the solids' measures and how well they stand for the original
    fill : skin and back-fill in the cavity [ml]
    kept : skin and back-fill that stay on the piece [ml]
    skin_g_ml, back_g_ml : densities [g/ml]

    Source: propagation of uncertainty of independent quantities (JCGM 100:2008, 5.1).
    """
    spread = measures.spread
    if spread.known:
        return CastDoubt()
    piece_ml, whole_ml = measures.piece.volume_ml, fill.skin_ml + fill.backfill_ml
    cavity = _of_terms(whole_ml, ((piece_ml, spread.volume),))
    if fill.backfill_ml <= 0.0:
        return CastDoubt(cavity, cavity, SURELY, spread.volume)
    apart = (piece_ml, spread.volume), (-fill.skin_ml, spread.rubber)
    heavier_g, mass_g = skin_g_ml - back_g_ml, kept.skin_ml * skin_g_ml + kept.backfill_ml * back_g_ml
    weighed = (kept.skin_ml + kept.backfill_ml) * back_g_ml, spread.volume
    mass = _of_terms(mass_g, (weighed, (kept.skin_ml * heavier_g, spread.rubber)))
    return CastDoubt(cavity, spread.rubber, _of_terms(fill.backfill_ml, apart), mass)


def _of_terms(whole: float, terms: tuple[tuple[float, Range], ...]) -> Range:
    """Factor on a sum whose terms come with factors of their own; a negative term is taken away."""
    down = hypot(*(max(term * (1.0 - by.low), term * (1.0 - by.high), 0.0) for term, by in terms)) / whole
    up = hypot(*(max(term * (by.high - 1.0), term * (by.low - 1.0), 0.0) for term, by in terms)) / whole
    return Range(max(1.0 - down, 0.0), 1.0, 1.0 + up)


def shell_doubt(spread: Spread) -> Range:
    """Factor on what a shell that is laid by hand takes: as on the rubber that it covers.

    Parameters
    ----------
    spread : how well the solids stand for the original

    Source: the surface of the gloved original bears the same doubt; our own reasoning.
    """
    return spread.rubber
