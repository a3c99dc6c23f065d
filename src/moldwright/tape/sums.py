"""What all draws of a tape's parts hold together: volume and area of each, without the likely one's privilege."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtri

from moldwright.ranges import Range
from moldwright.tape.doubts import Form, form, reading, spanned, spanned_by_limb
from moldwright.tape.draws import Draws
from moldwright.tape.parts import Part, is_tip, whole_area_mm2
from moldwright.tape.regular import regularity
from moldwright.tape.section import Floats
from moldwright.tape.told import Gap, Tape, gap_mm3

Picks = NDArray[np.bool_]
LOW, LIKELY, HIGH = 0.05, 0.5, 0.95
UNTOLD = 0.5
"""How regular a form may count at most where neither hollows nor gaps are told: girths see no bore; our own."""
LEAST_SHARE = 0.05
"""Of the lofts' volume that gaps leave at least."""


@dataclass(frozen=True, slots=True, eq=False)
class Sums:
    """Volume and area of every draw of the whole original."""

    volume_mm3: Floats
    area_mm2: Floats

    @property
    def volume_ml(self) -> Range:
        """Volume at 90 % [ml]."""
        return quantiles(self.volume_mm3 / 1000.0)

    @property
    def area_cm2(self) -> Range:
        """Area at 90 % [cm2]."""
        return quantiles(self.area_mm2 / 100.0)

    @property
    def area_slope(self) -> float:
        """By how much the logarithm of the area grows with that of the volume."""
        v, a = np.log(self.volume_mm3), np.log(self.area_mm2)
        return float(((v - v.mean()) * (a - a.mean())).sum() / ((v - v.mean()) ** 2).sum())


def quantiles(values: Floats) -> Range:
    """Low, likely and high of many draws.

    Parameters
    ----------
    values : the draws.

    >>> quantiles(np.arange(101.0))
    Range(low=5.0, likely=50.0, high=95.0)

    Source: our own.
    """
    low, likely, high = np.quantile(values, [LOW, LIKELY, HIGH])
    return Range(float(low), float(likely), float(high))


def sums(tape: Tape, parts: Sequence[Part], gaps: Sequence[Gap], draws: Draws) -> Sums:
    """Volume and area of every draw.

    Parameters
    ----------
    tape : what was measured, checked.
    parts : body and limbs.
    gaps : what the tape does not see and the maker tells; they are taken away.
    draws : the draws.

    Source: our own; priors in the data file.
    """
    like = form()
    body = parts[0].lofts
    even = regularity([level for level in tape.levels if not is_tip(level)], reading())
    even = min(even, UNTOLD) if tape.hollows is None and not gaps else even
    round_mm3 = body.volume_mm3
    regular = draws.normal()[:, 0] < ndtri(even)
    there = _there(tape, body.slimness, regular, draws, like)
    lost = _gaps_mm3(gaps, draws, like)
    volume = _less(round_mm3 * there, round_mm3, lost)
    area = whole_area_mm2(parts[0])
    for part in parts[1:]:
        spans = spanned_by_limb(part.limb.hollows if part.limb is not None else None)
        share = spans.share * np.exp(draws.within(spans.share_off))[:, 0]
        first = part.lofts.section_mm2[:, 0]
        join = draws.within(like.join)[:, 0] * first * np.sqrt(first / np.pi)
        volume = volume + part.count * (part.lofts.volume_mm3 * share + join)
        area = area + whole_area_mm2(part)
    volume = np.maximum(volume, LEAST_SHARE * round_mm3)
    folds = _folds(tape, body.slimness, regular, draws, like)
    return Sums(volume, area * folds + _walls_mm2(gaps, draws, like))


def _there(tape: Tape, slimness: Floats, regular: Picks, draws: Draws, like: Form) -> Floats:
    """Share of the body's superellipses that is really there: a modeled form's hollows and odd sections, or next to all
    in the draws that take it for regular."""
    told = spanned(tape.hollows)
    modeled = np.log(told.share * (like.hull - like.hull_slim * slimness)) + draws.within(told.share_off)[:, 0]
    full = np.log(like.regular) + draws.within(like.regular_share)[:, 0]
    there: Floats = np.exp(np.where(regular, full, modeled))
    return there


def _folds(tape: Tape, slimness: Floats, regular: Picks, draws: Draws, like: Form) -> Floats:
    most = spanned(tape.hollows).folds
    modeled = np.log(most - like.folds_slim * slimness) + draws.within(like.folds_share)[:, 0]
    smooth = draws.within(like.regular_folds_share)[:, 0]
    folds: Floats = np.exp(np.where(regular, smooth, modeled))
    return folds


def _gaps_mm3(gaps: Sequence[Gap], draws: Draws, like: Form) -> Floats:
    lost = np.zeros(draws.count)
    for gap in gaps:
        lost += gap_mm3(gap) * like.gap_full * np.exp(draws.within(like.gap_full_share)[:, 0])
    return lost


def _less(there: Floats, round_mm3: Floats, lost: Floats) -> Floats:
    """What is there once told gaps are taken away: hollows that the prior counts on may be those that are told, half of
    them at most."""
    hollow = np.maximum(round_mm3 - there, 0.0)
    return there - np.maximum(lost - hollow / 2.0, 0.0)


def _walls_mm2(gaps: Sequence[Gap], draws: Draws, like: Form) -> Floats:
    """What the gaps' walls add to the area, those of a bowl less than those of a bore [mm2]."""
    added = np.zeros(draws.count)
    for gap in gaps:
        around = np.pi * gap.width_mm if gap.length_mm is None else 2.0 * (gap.width_mm + gap.length_mm)
        share = like.gap_full * np.exp(draws.within(2.0 * like.gap_full_share)[:, 0])
        added += gap.count * gap.depth_mm * around * share
    return added
