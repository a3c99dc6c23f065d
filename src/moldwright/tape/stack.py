"""One stack of sections: body or limb, as many draws of it side by side, along its axis."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from scipy.interpolate import PchipInterpolator

from moldwright.geometry.section_shape import SectionShape
from moldwright.tape import section
from moldwright.tape.between import unsure_between
from moldwright.tape.doubts import Form, ReadDoubt, kind
from moldwright.tape.draws import Draws
from moldwright.tape.section import Floats
from moldwright.tape.told import TapeLevel

TIP_MM = 0.5
"""A girth below this is a tip."""
TIP_SHARE = 1e-3
"""Breadth of a tip, as a share of the last section's."""
FINE, CAP = 8, 12
"""Sections between two levels, and of a rounded end."""
SLIMMEST = 0.05


@dataclass(frozen=True, slots=True)
class Ends:
    """Where a stack begins and ends along its axis [mm], and whether its end is rounded or cut flat."""

    low_mm: float
    high_mm: float
    rounded: bool


@dataclass(frozen=True, slots=True, eq=False)
class Lofts:
    """Draws of a stack: places along its axis (n), breadth, depth, squareness (draws, n), and a factor on the area of
    each section (draws, n) by which it differs from the superellipse; the places of the levels that were read, and half
    the range of the mean section between each two of them."""

    at_mm: Floats
    breadth_mm: Floats
    depth_mm: Floats
    square: Floats
    share: Floats
    levels_mm: Floats
    unsure: Floats

    @property
    def section_mm2(self) -> Floats:
        """Area of every section (draws, n) [mm2]."""
        return self.breadth_mm * self.depth_mm * section.area_share(self.square) * self.share

    @property
    def slimness(self) -> Floats:
        """How many e-folds the sections are longer than wide, in the mean over the volume (draws)."""
        weight = self.section_mm2 * np.gradient(self.at_mm)
        slim = np.abs(np.log(self.depth_mm / self.breadth_mm))
        mean: Floats = (slim * weight).sum(axis=1) / weight.sum(axis=1)
        return mean

    @property
    def girth_mm(self) -> Floats:
        """Girth of every section (draws, n) [mm]."""
        return section.girth(self.breadth_mm, self.depth_mm, self.square)

    @property
    def volume_mm3(self) -> Floats:
        """Volume of every draw (draws) [mm3]."""
        area, step = self.section_mm2, np.diff(self.at_mm)
        root = np.sqrt(area[:, :-1] * area[:, 1:])
        volume: Floats = ((area[:, :-1] + area[:, 1:] + root) / 3.0 * step).sum(axis=1)
        return volume

    @property
    def side_mm2(self) -> Floats:
        """Area of the side of every draw, without the flat ends (draws) [mm2]."""
        girth = self.girth_mm
        slant = np.hypot(np.diff(self.at_mm), np.diff(girth, axis=1) / (2.0 * np.pi))
        side: Floats = ((girth[:, :-1] + girth[:, 1:]) / 2.0 * slant).sum(axis=1)
        return side


def lofts(
    levels: Sequence[TapeLevel], shape: SectionShape, ends: Ends, draws: Draws, reading: ReadDoubt, form: Form
) -> Lofts:
    """Many lofts through one stack's levels, the likely one first.

    Parameters
    ----------
    levels : rising, two at least, none a contradiction; a last one of no girth is a tip.
    shape : where a level does not say.
    ends : where the stack begins and ends.
    draws : the draws.
    reading : how well a person reads.
    form : what forms are like.

    Source: our own; monotone cubics between the levels (Fritsch and Carlson, from memory).
    """
    real = [level for level in levels if level.girth_mm > TIP_MM]
    at = np.array([level.at_mm for level in real])
    breadth, depth, square = _sections(real, shape, draws, reading)
    slack = np.exp(draws.within(reading.tape_share))
    sizes = np.stack([breadth * slack, depth * slack])
    sizes *= np.exp(_of_height(at, sizes, draws, reading))
    if len(real) < len(levels):
        at, sizes, square = np.append(at, levels[-1].at_mm), _tipped(sizes, TIP_SHARE), _tipped(square, 1.0)
    where, likely = _places(at, ends)
    b, d, s = (_between(at, values, likely) for values in (sizes[0], sizes[1], square))
    share = np.exp(_per_level(at, likely, draws, form))
    unsure = unsure_between(at, sizes[:, 0], square[0], reading, form)
    scale = _ends(where, at, ends, draws, form) * np.exp(_bridges(at, likely, unsure, draws) / 2.0)
    return Lofts(where, b * scale, d * scale, s, share, at, unsure)


def _sections(
    levels: Sequence[TapeLevel], shape: SectionShape, draws: Draws, reading: ReadDoubt
) -> tuple[Floats, Floats, Floats]:
    """Breadth, depth and squareness of every level, (draws, levels)."""
    girths = np.array([level.girth_mm for level in levels])
    girth = girths + draws.within(reading.girth_mm + reading.girth_share * girths, len(levels))
    girth = np.maximum(girth, girths / 3.0)
    breadth, depth, square = (np.full((draws.count, len(levels)), np.nan) for _ in range(3))
    for n, level in enumerate(levels):
        b, d = (_caliper(value, draws, reading) for value in (level.breadth_mm, level.depth_mm))
        if b is not None and d is not None:
            breadth[:, n], depth[:, n] = _agreeing(girth[:, n], b, d)
            square[:, n] = section.square_of(girth[:, n], breadth[:, n], depth[:, n])
    slim, squareness = _forms(levels, breadth, depth, square, shape, draws)
    for n, level in enumerate(levels):
        b, d = (_caliper(value, draws, reading) for value in (level.breadth_mm, level.depth_mm))
        if b is not None and d is not None:
            continue
        square[:, n] = squareness[:, n]
        if b is None and d is None:
            unit = section.girth(np.ones(draws.count), np.exp(slim[:, n]), square[:, n])
            breadth[:, n] = girth[:, n] / unit
            depth[:, n] = breadth[:, n] * np.exp(slim[:, n])
            continue
        known = np.minimum(b if b is not None else d, girth[:, n] / 2.0 * 0.995)  # type: ignore[arg-type]
        other = section.depth_for(girth[:, n], known, square[:, n])
        breadth[:, n], depth[:, n] = (known, other) if b is not None else (other, known)
    return breadth, depth, square


def _caliper(value: float | None, draws: Draws, reading: ReadDoubt) -> Floats | None:
    if value is None:
        return None
    drawn: Floats = value + draws.within(reading.caliper_mm + reading.caliper_share * value)[:, 0]
    return np.maximum(drawn, value / 3.0)


def _agreeing(girth: Floats, breadth: Floats, depth: Floats) -> tuple[Floats, Floats]:
    """Breadth and depth, made to fit the girth where readings within their doubt do not."""
    least, most = section.girth_bounds(breadth, depth)
    fit = np.clip(girth, least * 1.002, most * 0.998)
    return breadth * girth / fit, depth * girth / fit


def _forms(
    levels: Sequence[TapeLevel], breadth: Floats, depth: Floats, square: Floats, shape: SectionShape, draws: Draws
) -> tuple[Floats, Floats]:
    """Logarithm of depth over breadth, and squareness, of every level: as calipers have it at the levels about it, else
    as the shape note has it (draws, levels)."""
    at = np.array([level.at_mm for level in levels])
    known = np.array([level.breadth_mm is not None and level.depth_mm is not None for level in levels])
    noted = kind(shape)
    turn = np.where(_evened(draws) > 0, 1.0, -1.0)
    aspect = turn * (np.log(noted.slim) + draws.within(noted.slim_share)[:, 0])
    slim = np.repeat(aspect[:, None], len(levels), axis=1)
    squareness = np.repeat(noted.square + draws.within(noted.square_off), len(levels), axis=1)
    if known.any():
        told = np.log(depth[:, known] / breadth[:, known])
        slim = np.stack([np.interp(at, at[known], row) for row in told])
        squareness = np.stack([np.interp(at, at[known], row) for row in square[:, known]])
    slim = slim + draws.within(noted.slim_share / 2.0, len(levels))
    squareness = squareness + draws.within(noted.square_off / 2.0, len(levels))
    for n, level in enumerate(levels):
        if level.shape is not None:
            own = kind(level.shape)
            slim[:, n] = turn * (np.log(own.slim) + draws.within(own.slim_share)[:, 0])
            squareness[:, n] = own.square + draws.within(own.square_off)[:, 0]
    return np.clip(slim, np.log(SLIMMEST), -np.log(SLIMMEST)), np.clip(squareness, 0.2, 0.97)


def _evened(draws: Draws) -> Floats:
    """Which of the two sides is the longer one; the likely draw is broader than deep."""
    drawn = draws.normal()[:, 0]
    drawn[0] = 1.0
    return drawn


def _of_height(at: Floats, sizes: Floats, draws: Draws, reading: ReadDoubt) -> Floats:
    """What a level that was held a little too high or low does to its size: the slope times the doubt of its height."""
    if len(at) < 2:
        return np.zeros((draws.count, len(at)))
    mean = np.log(sizes[:, 0]).mean(axis=0)
    slope = np.clip(np.gradient(mean, at), -0.05, 0.05)
    off: Floats = draws.within(reading.at_mm, len(at)) * slope
    return off


def _tipped(values: Floats, share: float) -> Floats:
    """The values with those of a tip behind: a share of the last ones."""
    return np.concatenate([values, share * values[..., -1:]], axis=-1)


def _places(at: Floats, ends: Ends) -> tuple[Floats, Floats]:
    """Places of all sections, and the same held within the levels, where sizes are known."""
    pieces = [np.array([ends.low_mm])] if at[0] - ends.low_mm > 1e-6 else []
    pieces += [np.linspace(a, b, FINE, endpoint=False) for a, b in pairwise(at)]
    pieces.append(at[-1:])
    if ends.high_mm - at[-1] > 1e-6:
        turn = np.linspace(0.0, np.pi / 2.0, CAP + 1)[1:]
        pieces.append(at[-1] + (ends.high_mm - at[-1]) * np.sin(turn))
    where = np.concatenate(pieces)
    return where, np.clip(where, at[0], at[-1])


def _between(at: Floats, values: Floats, where: Floats) -> Floats:
    if len(at) == 1:
        return np.repeat(values, len(where), axis=1)
    found: Floats = PchipInterpolator(at, values, axis=1)(where)
    return found


def _per_level(at: Floats, where: Floats, draws: Draws, form: Form) -> Floats:
    drawn = draws.within(form.level_share, len(at))
    return np.stack([np.interp(where, at, row) for row in drawn])


def _bridges(at: Floats, where: Floats, unsure: Floats, draws: Draws) -> Floats:
    """What sections between two levels are larger or smaller by than the cubic has them, none at the levels."""
    found = np.zeros((draws.count, len(where)))
    if len(at) < 2:
        return found
    gaps = np.diff(at)
    drawn = draws.within(1.5 * unsure, len(gaps))
    span = np.clip(np.searchsorted(at, where, side="right") - 1, 0, len(gaps) - 1)
    t = np.clip((where - at[span]) / gaps[span], 0.0, 1.0)
    return drawn[:, span] * 4.0 * t * (1.0 - t)


def _ends(where: Floats, at: Floats, ends: Ends, draws: Draws, form: Form) -> Floats:
    """What the ends do to a section's sizes: wider or narrower on the board, rounded on top."""
    scale = np.ones((draws.count, len(where)))
    base = np.exp(draws.within(form.base_share))
    scale[:, where < at[0] - 1e-6] = base
    over = where > at[-1] + 1e-6
    t = np.clip((where[over] - at[-1]) / max(ends.high_mm - at[-1], 1e-9), 0.0, 1.0)
    power = form.top * np.exp(draws.within(form.top_share))
    if over.any() and ends.rounded:
        scale[:, over] = np.sqrt(np.maximum(1.0 - t[None, :] ** power, 1e-6))
    return scale
