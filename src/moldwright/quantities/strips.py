"""Strips of bandage for one piece of a shell: how long and how many, by the piece's own girth and slant."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from math import ceil, fsum

from moldwright.mold.measures import ShellBand
from moldwright.plan.mold import StripCut

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
    """The strips of one piece, longest first.

    Odd layers go round in courses, each a third over the last and as long as its girth is in the mean; even layers
    stand upright, in as many rows as take the least bandage. One more course stiffens the base, one layer makes the
    lap. Lengths go up to whole steps of the rule; what waste adds is cut in the most frequent length.

    Parameters
    ----------
    cover : the piece.
    width_mm : of a strip [mm], > 0.
    longest_mm : strip that is still handled well [mm], more than the shortest.
    layers : of strips, 1 or more.
    waste : share lost, 0 to 1.
    step_mm : lengths are whole steps of this [mm].

    Source: common practice, no source.
    """
    rows = [_slanted(band) for band in cover.bands if band.girth_mm > 0.0 and band.area_mm2 > 0.0]
    whole_mm = fsum(row.slant_mm for row in rows)
    courses = _courses(rows, whole_mm / _beside(whole_mm, width_mm)) if rows else []
    round_ = [cut for girth in courses for cut in _along(girth + 2 * cover.flange_mm, longest_mm)]
    upright = _upright(rows, cover.flange_mm, width_mm, longest_mm)
    base_mm = cover.bands[0].girth_mm
    base = _along(base_mm + 2 * cover.flange_mm, longest_mm) if base_mm > 0.0 else ()
    lap = _along(cover.lap_edge_mm, longest_mm) * max(1, ceil(cover.lap_mm / width_mm)) if cover.lap_edge_mm else ()
    lengths = [*round_ * ceil(layers / 2), *upright * (layers // 2), *base, *lap]
    return _counted(lengths, waste, step_mm)


@dataclass(frozen=True, slots=True)
class _Row:
    """A band: its girth, and how far it goes up along the surface [mm]."""

    girth_mm: float
    slant_mm: float


def _slanted(band: ShellBand) -> _Row:
    return _Row(band.girth_mm, band.area_mm2 / band.girth_mm)


def _beside(way_mm: float, width_mm: float) -> int:
    """How many strips side by side cover a way, each a third over the last."""
    return max(1, 1 + ceil((way_mm - width_mm) / (width_mm * (1.0 - OVERLAP_SHARE)) - 1e-9))


def _courses(rows: Sequence[_Row], high_mm: float) -> list[float]:
    """The mean girth of each course of so much slant, from the base up [mm]."""
    ends_mm = list(accumulate((row.slant_mm for row in rows), initial=0.0))
    count = max(1, round(ends_mm[-1] / high_mm))
    edges = [high_mm * n for n in range(count + 1)]
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


def _upright(rows: Sequence[_Row], flange_mm: float, width_mm: float, longest_mm: float) -> list[float]:
    """Strips that stand upright, in the number of rows that takes the least bandage."""
    whole_mm = fsum(row.slant_mm for row in rows)
    if whole_mm == 0.0:
        return []
    least = max(1, ceil((whole_mm - END_LAP_MM) / (longest_mm - END_LAP_MM) - 1e-9))
    tried = [
        _in_rows(rows, whole_mm / count, flange_mm, width_mm)
        for count in range(least, max(least, MOST_COURSES) + 1)
        if count == least or whole_mm / count >= SHORTEST_MM
    ]
    return min(tried, key=fsum)


def _in_rows(rows: Sequence[_Row], high_mm: float, flange_mm: float, width_mm: float) -> list[float]:
    counts = [_beside(girth + 2 * flange_mm, width_mm) for girth in _courses(rows, high_mm)]
    length_mm = max(SHORTEST_MM, high_mm + (END_LAP_MM if len(counts) > 1 else 0.0))
    return [length_mm] * sum(counts)


def _counted(lengths_mm: Iterable[float], waste: float, step_mm: float) -> tuple[StripCut, ...]:
    counts = Counter(step_mm * ceil(length / step_mm - 1e-9) for length in lengths_mm)
    if not counts:
        return ()
    spare_mm = waste * fsum(length * count for length, count in counts.items())
    usual, _ = counts.most_common(1)[0]
    counts[usual] += ceil(spare_mm / usual - 1e-9)
    return tuple(StripCut(length, counts[length]) for length in sorted(counts, reverse=True))
