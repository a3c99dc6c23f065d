"""Figures of matching speckles between photos."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class RefineSettings:
    """Our own, tried on rendered speckled pieces (docs/decisions/0041).

    `points` : on the hull's surface; `views` : that look at a point most squarely; `least_views` : fewer tell nothing;
    `least_cosine` : how squarely a view must look; `patch_share` : half side of a patch as a share of the longest side;
    `deepest_share` : how deep recesses are looked for, as a share of it; `step_share` : of depths; `clear` : how far
    the best match must stand out from the usual one; `clear_share` : how many of the points must match clearly, or the
    piece is too plain and nothing is changed; `neighbors` : that must agree; `agree_share` : how closely, as a share of
    the longest side; `unsure_share` : depths up to this share of it are
    none; `noise` : of a pixel, in gray levels; `rounds` : of matching, each from the surface that
    the last one gave, while it takes away more than `least_change` of the volume.
    """

    points: int = 6000
    views: int = 6
    least_views: int = 3
    least_cosine: float = 0.35
    patch_share: float = 0.015
    deepest_share: float = 0.14
    step_share: float = 0.005
    clear: float = 0.3
    clear_share: float = 0.85
    neighbors: int = 9
    agree_share: float = 0.02
    unsure_share: float = 0.003
    noise: float = 1.5
    rounds: int = 2
    least_change: float = 0.004
