"""How unsure a stack is between two levels: how badly each level would be foretold by the others.

Where a cubic without a level misses it by a share e, the piece bends there more than its levels follow. Sections of the
tuning half of the bodies of `tests/validation/test_tape_meshes.py`, cut in 250 places each, missed the cubics between
two levels by `between` times the square root of e times the breadths that the levels are apart.
"""

from __future__ import annotations

import numpy as np
from scipy.interpolate import PchipInterpolator

from moldwright.ranges import NINETY
from moldwright.tape import section
from moldwright.tape.doubts import Form, ReadDoubt
from moldwright.tape.section import Floats

FEWEST = 3
"""Levels of which one can be foretold by the others."""


def unsure_between(at: Floats, sizes: Floats, square: Floats, reading: ReadDoubt, form: Form) -> Floats:
    """Half the range of the mean section's share between each two levels, (levels - 1).

    Parameters
    ----------
    at : the levels, rising [mm].
    sizes : (2, levels) breadth and depth [mm].
    square : (levels) squareness.
    reading : how well a person reads; what reading alone makes the levels jump is no bend.
    form : what forms are like.

    Source: our own, measured.
    """
    wide = np.sqrt(sizes[0] * sizes[1])
    apart = np.minimum(np.diff(at) / ((wide[:-1] + wide[1:]) / 2.0), form.between_most)
    if len(at) < FEWEST:
        return np.asarray(form.between_least * apart)
    missed = _missed(at, sizes, square)
    noise = 2.0 * (reading.girth_mm / (np.pi * wide) + reading.girth_share) / NINETY
    bend = np.sqrt(np.maximum(missed**2 - noise[1:-1] ** 2, 0.0))
    bend = np.concatenate([bend[:1], bend, bend[-1:]])
    unsure: Floats = np.maximum(form.between * np.sqrt((bend[:-1] + bend[1:]) / 2.0), form.between_least) * apart
    return np.minimum(unsure, form.between_most_off)


def _missed(at: Floats, sizes: Floats, square: Floats) -> Floats:
    """By how much the section of each inner level is missed by the cubics through the others, in e-folds."""
    read = sizes[0] * sizes[1] * section.area_share(square)
    found = np.empty(len(at) - 2)
    for n in range(1, len(at) - 1):
        others = np.arange(len(at)) != n
        wide, deep, s = (PchipInterpolator(at[others], v[others])(at[n]) for v in (*sizes, square))
        found[n - 1] = abs(np.log(wide * deep * section.area_share(np.array(s)) / read[n]))
    return found
