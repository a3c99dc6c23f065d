"""The packed places as the plan tells them: those worth a number, and the small ones together."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import fsum

from moldwright.mold.measures import FillSpot, GloveMeasures, SpotKind
from moldwright.plan.ids import CoatId, spot_id
from moldwright.plan.mold import PartPlan, SmallSpots, SpotPlan

LEAST_TOLD_ML = 0.1
"""A place of less, a dab of half a centimeter, is told with the small ones: our choice."""


def spot_plans(
    glove: GloveMeasures, fill: PartPlan, after: Mapping[SpotKind, CoatId], step_g: float
) -> tuple[tuple[SpotPlan, ...], tuple[SmallSpots, ...]]:
    """The places that have a number, and what is left of the fill after each coat that any follows.

    Both together are the fill, in milliliters and in grams. A place has a number from the scale's step on, and from a
    tenth of a milliliter.

    Parameters
    ----------
    glove : where rubber is packed, and how much bridges crevices.
    fill : all of it.
    after : the coat that each kind follows.
    step_g : the scale's step [g].

    Source: arithmetic; what is small is our own.
    """
    g_ml = fill.net_g / fill.volume_ml if fill.volume_ml > 0 else 0.0
    every = tuple(_within(glove))
    told = [spot for spot in every if spot.volume_ml >= LEAST_TOLD_ML and spot.volume_ml * g_ml >= step_g]
    spots = tuple(
        SpotPlan(spot_id(number), s.at, s.depth_mm, s.volume_ml, round(s.volume_ml * g_ml, 4), after[s.kind])
        for number, s in enumerate(told, start=1)
    )
    crevice_ml = glove.crevice_share * fill.volume_ml
    whole_ml: dict[CoatId, float] = {}
    for kind, volume_ml in ((SpotKind.CREVICE, crevice_ml), (SpotKind.UNDERCUT, fill.volume_ml - crevice_ml)):
        whole_ml[after[kind]] = whole_ml.get(after[kind], 0.0) + volume_ml
    counts = [after[spot.kind] for spot in every if spot not in told]
    return spots, tuple(_small(spots, fill, g_ml, whole_ml, counts))


def _within(glove: GloveMeasures) -> Iterator[FillSpot]:
    """The places, no more of each kind than the fill has of it: solids are made to a few micrometers."""
    crevice_ml = glove.crevice_share * glove.fill_ml
    for kind, most_ml in ((SpotKind.CREVICE, crevice_ml), (SpotKind.UNDERCUT, glove.fill_ml - crevice_ml)):
        mine = [spot for spot in glove.spots if spot.kind is kind]
        sum_ml = fsum(spot.volume_ml for spot in mine)
        share = max(most_ml, 0.0) / sum_ml if sum_ml > max(most_ml, 0.0) else 1.0
        for spot in mine:
            yield FillSpot(spot.at, spot.depth_mm, share * spot.volume_ml, kind)


def _small(
    spots: Sequence[SpotPlan], fill: PartPlan, g_ml: float, whole_ml: dict[CoatId, float], counts: Sequence[CoatId]
) -> Iterator[SmallSpots]:
    """What the numbered places leave; the last coat's share of the grams is what is left of the fill's."""
    left_g = fill.net_g - fsum(spot.net_g for spot in spots)
    for number, (coat, volume_ml) in enumerate(whole_ml.items(), start=1):
        mine = [spot for spot in spots if spot.after == coat]
        rest_ml = volume_ml - fsum(spot.volume_ml for spot in mine)
        rest_g = volume_ml * g_ml - fsum(spot.net_g for spot in mine)
        rest_g = round(left_g if number == len(whole_ml) else max(rest_g, 0.0), 4)
        left_g -= rest_g
        if rest_ml > 0.0 or counts.count(coat):
            yield SmallSpots(counts.count(coat), max(rest_ml, 0.0), rest_g, coat)
