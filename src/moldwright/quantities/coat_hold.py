"""How thick each coat's mix stays where it is laid, wet: by its thixotropic agent, or by the maker's hang test."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import ceil

from moldwright.commission.orders import MoldOrder
from moldwright.materials.kinds import Rubber, Thixotrope
from moldwright.mixing.rubber import rubber_density_g_ml
from moldwright.mold.hold import slumping_share, wall_hold_mm
from moldwright.plan.coats import Coat, CoatHold
from moldwright.ranges import Range

HANGS_SHARE = 0.5
"""Of what a wall holds so much hangs from a face that looks down: common practice, no source; a test tells."""
COMMON_YIELD_PA = Range(20.0, 50.0, 120.0)
"""Yield stress of rubber with the usual dose where the sheet tells none [Pa]: from memory, low confidence."""
SLUMP_SHARE = 0.02
"""So little of a surface may hold less than a coat without a word: our own."""
MOST_LAYERS = 20
"""A coat is told in no more layers; our own."""


def coat_holds(
    coats: Sequence[Coat], rubber: Rubber, thixotrope: Thixotrope, mold: MoldOrder, slopes: tuple[float, ...]
) -> tuple[CoatHold, ...]:
    """What each coat's mix holds on a wall and under a ceiling, and how much of this surface holds less than the coat.

    `tau = tau_dose p / dose`, p the thixotropic agent and tau_dose the sheet's at its usual dose; `wall = tau / (rho
    g)`. A hang test of the last coat's mix takes its place: `wall = hangs p / p_last`.

    Parameters
    ----------
    coats : first coat first
    rubber : its sheet
    thixotrope : the sheet of what thickens it
    mold : with the hang test, where one was made
    slopes : of the coated surface; none: nothing is told

    Source: Bingham's layer (`mold.hold`); that the yield stress grows as the dose is our own, for small doses.
    """
    if not slopes:
        return ()
    return tuple(_hold(coat, coats[-1], rubber, thixotrope, mold, slopes) for coat in coats)


def _hold(
    coat: Coat, last: Coat, rubber: Rubber, thixotrope: Thixotrope, mold: MoldOrder, slopes: tuple[float, ...]
) -> CoatHold:
    wall_mm = _wall_mm(coat, last, rubber, thixotrope, mold)
    hangs = HANGS_SHARE if mold.drips_mm is None or not mold.hangs_mm else mold.drips_mm / mold.hangs_mm
    ceiling_mm = wall_mm * hangs

    def slumping(layer_mm: float, held_mm: float) -> float:
        return slumping_share(slopes, layer_mm, held_mm, held_mm * hangs)

    layers = _first(lambda n: slumping(coat.pass_mm / n, wall_mm.likely))
    need_mm = _needed_mm(coat.pass_mm, lambda held_mm: slumping(coat.pass_mm, held_mm))
    enough_pct = coat.thixotrope_pct * need_mm / wall_mm.likely
    return CoatHold(
        coat=coat.id,
        layer_mm=coat.pass_mm,
        wall_mm=wall_mm,
        ceiling_mm=ceiling_mm,
        slumps=slumping(coat.pass_mm, wall_mm.likely),
        may_slump=slumping(coat.pass_mm, wall_mm.low),
        layers=layers,
        enough_pct=ceil(10.0 * enough_pct) / 10.0 if enough_pct <= thixotrope.dose_max_pct.likely else None,
    )


def _wall_mm(coat: Coat, last: Coat, rubber: Rubber, thixotrope: Thixotrope, mold: MoldOrder) -> Range:
    if mold.hangs_mm is not None:
        return Range.exactly(mold.hangs_mm * coat.thixotrope_pct / last.thixotrope_pct)
    share = coat.thixotrope_pct / thixotrope.dose_pct.likely
    yield_pa = thixotrope.yield_stress_pa.range if thixotrope.yield_stress_pa else COMMON_YIELD_PA
    return yield_pa * (share * wall_hold_mm(1.0, rubber_density_g_ml(rubber)))


def _first(slumping: Callable[[int], float]) -> int:
    """The fewest layers in which it stays nearly everywhere."""
    return next((n for n in range(1, MOST_LAYERS) if slumping(n) <= SLUMP_SHARE), MOST_LAYERS)


def _needed_mm(layer_mm: float, slumping: Callable[[float], float]) -> float:
    """What a wall must hold so that a layer stays nearly everywhere [mm]: tried upward by twentieths."""
    held_mm = layer_mm / 4.0
    while slumping(held_mm) > SLUMP_SHARE and held_mm < 8.0 * layer_mm:
        held_mm *= 1.05
    return held_mm
