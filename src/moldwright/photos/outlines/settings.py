"""Figures of the outlines: how a piece is told from sheet and backdrop."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class OutlineSettings:
    """Our own, tried on rendered photos (docs/decisions/0040).

    `floor` : added to linear light before its logarithm, so that dark noise stays small; `share` : of the piece's
    typical distance in color from where on a pixel is the piece; `least_apart` : typical distance below which piece
    and surroundings have no contrast; `wavering`, `print_wavering` : how far paper and backdrop, and print, stray from
    their own colors toward the piece's; `band_px` : half breadth of the band at the outline in which it is measured
    again; `smooth_px`, `smooth_light` : how far, and over what steps of log light, neighbors settle together;
    `near_px` : how far colors on both sides are gathered; `frame_px` : breadth of the frame that nothing of the piece
    may touch; `coarse_px` : long side at which the piece is looked for first; `crumb_share` : parts smaller than this
    share of the largest are no part of the piece; `least_piece_share` : smallest share of a photo that can be a piece.
    """

    floor: float = 0.004
    share: float = 0.13
    least_apart: float = 0.12
    wavering: float = 0.04
    print_wavering: float = 0.08
    smooth_px: int = 4
    smooth_light: float = 0.02
    band_px: float = 2.5
    near_px: int = 9
    frame_px: int = 2
    coarse_px: int = 800
    crumb_share: float = 0.002
    least_piece_share: float = 0.002
