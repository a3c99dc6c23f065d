"""The colors of maps are told apart without color vision, and in gray."""

from __future__ import annotations

from itertools import combinations, pairwise

import numpy as np
import pytest

from moldwright.sheets.palettes import LEAF_COLORS, Palette

# Machado, Oliveira and Fernandes 2009, "A physiologically-based model for simulation of color vision deficiency", IEEE
# Transactions on Visualization and Computer Graphics 15 (6), severity 1.0, on linear RGB (from memory).
VISION = {
    "full": np.eye(3),
    "no red": np.array([
        [0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998],
    ]),
    "no green": np.array([
        [0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881],
    ]),
    "no blue": np.array([
        [1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.303900],
    ]),
    "gray": np.tile([0.2126, 0.7152, 0.0722], (3, 1)),
}  # fmt: skip
# sRGB to CIE XYZ, IEC 61966-2-1, white D65.
XYZ = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])
SEEN = 5.0
"""Two patches side by side are told apart from about 2.3 on (Mahy et al. 1994, from memory): twice that."""


def linear(color: str) -> np.ndarray:
    parts = np.array([int(color[at : at + 2], 16) for at in (1, 3, 5)]) / 255
    return np.where(parts <= 0.04045, parts / 12.92, ((parts + 0.055) / 1.055) ** 2.4)


def lab(rgb: np.ndarray) -> np.ndarray:
    """CIE 1976 L*a*b* of linear RGB."""
    share = np.clip(XYZ @ np.clip(rgb, 0, 1) / (XYZ @ np.ones(3)), 0, None)
    f = np.where(share > (6 / 29) ** 3, np.cbrt(share), share / (3 * (6 / 29) ** 2) + 4 / 29)
    return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])


@pytest.mark.parametrize("palette", list(Palette))
@pytest.mark.parametrize("vision", VISION)
def test_any_two_leaves_are_told_apart_and_each_is_darker(palette: Palette, vision: str) -> None:
    seen = [lab(VISION[vision] @ linear(color)) for color in LEAF_COLORS[palette]]
    assert len(seen) == 8
    assert all(np.linalg.norm(one - other) >= SEEN for one, other in combinations(seen, 2))
    assert all(lighter[0] - darker[0] >= SEEN for lighter, darker in pairwise(seen))


def test_the_check_finds_what_cannot_be_told_apart() -> None:
    """A red and a green of one lightness: apart for full color vision, one for who sees no green."""
    red, green = (lab(VISION["no green"] @ linear(color)) for color in ("#b05050", "#767645"))
    assert np.linalg.norm(lab(linear("#b05050")) - lab(linear("#767645"))) > 30
    assert abs(red[0] - green[0]) < SEEN
