"""Strips of bandage for one piece of a shell: how long and how many, by the piece's own girth and slant."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from math import ceil, fsum

from moldwright.mold.measures import ShellBand
from moldwright.plan.mold import StripCut, StripUse

OVERLAP_SHARE = 1 / 3
"""A strip lies a third of its width on its neighbors: common practice, no source."""
END_LAP_MM = 30.0
"""How far strips lap end on end: common practice, no source."""
SHORTEST_MM = 100.0
"""Nobody handles a shorter one: common practice, no source."""
MOST_COURSES = 6
"""So many rows of upright strips at the most, one over the other: our own."""


@dataclass(frozen=True, slots=True)
class PieceCover:
    """What one piece covers: its bands from the base up, the base flange and its lip as the first; how wide it runs up
    the wall at each end of a course; how long the seam is along which it laps over what is laid, and how wide."""

    bands: tuple[ShellBand, ...]
    flange_mm: float
    lap_edge_mm: float = 0.0
    lap_mm: float = 0.0


def piece_strips(
    cover: PieceCover, width_mm: float, longest_mm: float, layers: int, waste: float, step_mm: float
) -> tuple[StripCut, ...]:
    """The strips of one piece, by use, the longest of each first.

    Odd layers go round in courses, each a third over the last and as long as its girth is in the mean; even layers
    stand upright, in as many rows as take the least bandage. One more course stiffens the base, one layer makes the
    lap. Where half a strip's width is enough, beside others or alone, it is cut along its middle. Lengths go up to
    whole steps of the rule; what waste adds is cut in the most frequent size.

    Parameters
    ----------
    cover : the piece.
    width_mm : of a strip [mm], > 0.
    longest_mm : strip that is still handled well [mm], more than the shortest.
    layers : of strips, 1 or more.
    waste : share lost, 0 to 1.
    step_mm : lengths are whole steps of this [mm].

    Source: turns lap by a third to a half: Hospital Corpsman 1 & C, NAVEDTRA 10669-C, fig. 5-4 (by a quarter to a half
    in the US Army's course on orthopedic casts); the rest is common practice, no source.
    """
    rows = [_slanted(band) for band in cover.bands if band.girth_mm > 0.0 and band.area_mm2 > 0.0]
    upright = _upright(rows, cover.flange_mm, width_mm, longest_mm)
    laid = [
        *_sized(StripUse.ROUND, _round(rows, cover.flange_mm, width_mm, longest_mm) * ceil(layers / 2)),
        *_sized(StripUse.UPRIGHT, upright * (layers // 2)),
        *_sized(StripUse.BASE, _base(cover, width_mm, longest_mm)),
        *_sized(StripUse.LAP, _laid_along(cover.lap_edge_mm, cover.lap_mm, width_mm, longest_mm)),
    ]
    return _counted(laid, waste, step_mm)


Strip = tuple[float, float]
"""Length and width [mm]."""
_Sized = tuple[StripUse, float, float]


def _sized(use: StripUse, strips: Iterable[Strip]) -> Iterator[_Sized]:
    return ((use, length, width) for length, width in strips)


@dataclass(frozen=True, slots=True)
class _Row:
    """A band: its girth, and how far it goes up along the surface [mm]."""

    girth_mm: float
    slant_mm: float


def _slanted(band: ShellBand) -> _Row:
    return _Row(band.girth_mm, band.area_mm2 / band.girth_mm)


def _beside(way_mm: float, width_mm: float) -> list[float]:
    """The widths of the strips that cover a way side by side, each lapping a third of itself: the last may be half."""
    more = max(0, ceil((way_mm - width_mm) / (0.5 * width_mm * (1.0 - OVERLAP_SHARE)) - 1e-9))
    halves = 1 if way_mm <= 0.5 * width_mm else 2 + more
    return [width_mm] * (halves // 2) + [0.5 * width_mm] * (halves % 2)


def _round(rows: Sequence[_Row], flange_mm: float, width_mm: float, longest_mm: float) -> list[Strip]:
    """One layer that goes round, the narrow course on top."""
    whole_mm = fsum(row.slant_mm for row in rows)
    if whole_mm == 0.0:
        return []
    widths = _beside(whole_mm, width_mm)
    girths = _courses(rows, [whole_mm * width / fsum(widths) for width in widths])
    return [
        (length, width)
        for girth, width in zip(girths, widths, strict=True)
        for length in _along(girth + 2 * flange_mm, longest_mm)
    ]


def _base(cover: PieceCover, width_mm: float, longest_mm: float) -> list[Strip]:
    """One more course on what lies on the board, its flange's ends included."""
    base = cover.bands[0]
    if base.girth_mm <= 0.0:
        return []
    return _laid_along(base.girth_mm + 2 * cover.flange_mm, _slanted(base).slant_mm, width_mm, longest_mm)


def _laid_along(way_mm: float, wide_mm: float, width_mm: float, longest_mm: float) -> list[Strip]:
    """Strips along a way, as many side by side as its width asks for."""
    if way_mm <= 0.0:
        return []
    return [(length, width) for width in _beside(wide_mm, width_mm) for length in _along(way_mm, longest_mm)]


def _courses(rows: Sequence[_Row], highs_mm: Sequence[float]) -> list[float]:
    """The mean girth of each course of so much slant, from the base up [mm]."""
    ends_mm = list(accumulate((row.slant_mm for row in rows), initial=0.0))
    edges = list(accumulate(highs_mm, initial=0.0))
    return [
        fsum(
            row.girth_mm * max(0.0, min(top, to) - max(foot, start))
            for row, (start, to) in zip(rows, pairwise(ends_mm), strict=True)
        )
        / (top - foot)
        for foot, top in pairwise(edges)
    ]


def _along(way_mm: float, longest_mm: float) -> list[float]:
    """Equal strips that lap end on end along a way [mm]."""
    count = max(1, ceil((way_mm - END_LAP_MM) / (longest_mm - END_LAP_MM) - 1e-9))
    return [max(SHORTEST_MM, (way_mm + (count - 1) * END_LAP_MM) / count)] * count


def _upright(rows: Sequence[_Row], flange_mm: float, width_mm: float, longest_mm: float) -> list[Strip]:
    """Strips that stand upright, in the number of rows that takes the least bandage."""
    whole_mm = fsum(row.slant_mm for row in rows)
    if whole_mm == 0.0:
        return []
    least = max(1, ceil((whole_mm - END_LAP_MM) / (longest_mm - END_LAP_MM) - 1e-9))
    tried = [
        _in_rows(rows, whole_mm, count, flange_mm, width_mm)
        for count in range(least, max(least, MOST_COURSES) + 1)
        if count == least or whole_mm / count >= SHORTEST_MM
    ]
    return min(tried, key=lambda strips: fsum(length * width for length, width in strips))


def _in_rows(rows: Sequence[_Row], whole_mm: float, count: int, flange_mm: float, width_mm: float) -> list[Strip]:
    high_mm = whole_mm / count
    length_mm = max(SHORTEST_MM, high_mm + (END_LAP_MM if count > 1 else 0.0))
    girths = _courses(rows, [high_mm] * count)
    return [(length_mm, width) for girth in girths for width in _beside(girth + 2 * flange_mm, width_mm)]


def _counted(strips: Sequence[_Sized], waste: float, step_mm: float) -> tuple[StripCut, ...]:
    counts = Counter((use, step_mm * ceil(length / step_mm - 1e-9), width) for use, length, width in strips)
    if not counts:
        return ()
    spare_mm2 = waste * fsum(length * width * count for (_, length, width), count in counts.items())
    usual, _ = counts.most_common(1)[0]
    counts[usual] += ceil(spare_mm2 / (usual[1] * usual[2]) - 1e-9)
    order = list(StripUse)
    sizes = sorted(counts, key=lambda size: (order.index(size[0]), -size[1], -size[2]))
    return tuple(StripCut(use, length, width, counts[use, length, width]) for use, length, width in sizes)
