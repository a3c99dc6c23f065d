"""The colors that are not the piece: backdrop, paper and ink, taken where the piece cannot be."""

from __future__ import annotations

import cv2
import numpy as np
from numpy.typing import NDArray

from moldwright.photos.outlines.color import Floats, chroma
from moldwright.photos.sheet.layout import PhotoSheet
from moldwright.photos.view import View

BORDER_SHARE = 0.04
GROUPS = 5
SAMPLES = 4000
LEAST_GROUP = 0.03
MAIN_GROUP, STRANGE_APART = 0.15, 0.2
"""A small group of the border far from every large one is no backdrop: it may be the piece itself, cut off there."""
MIXTURES = 6
LIT_GROUPS, LIT_APART, LIT_SHARE = 4, 0.08, 0.55
INSIDE_MARKER, AROUND_MARKER = 0.86, 1.14
DARK, PALE = 0.15, 0.9
LEAST_PIXELS = 25


class Ground:
    """Where the sheet's parts are on one photo, at a scale."""

    def __init__(self, view: View, sheet: PhotoSheet, stretch: tuple[float, float], scale: float) -> None:
        self._view, self._sheet, self._scale = view, sheet, scale
        self._stretch = np.array(stretch)

    def _seen(self, flat_mm: NDArray[np.float64]) -> NDArray[np.float64]:
        at = np.column_stack([flat_mm * self._stretch, np.zeros(len(flat_mm))])
        return (self._view.seen_px(at) + 0.5) * self._scale - 0.5

    def middle(self, shape: tuple[int, int]) -> NDArray[np.bool_]:
        """Pixels of the sheet's clear middle, where the piece stands.

        Parameters
        ----------
        shape : rows and columns of the photo at this scale.
        """
        wide, long = (0.5 * side for side in self._sheet.middle_mm)
        return self._filled([(-wide, -long), (wide, -long), (wide, long), (-wide, long)], shape)

    def markers(self, shape: tuple[int, int]) -> list[NDArray[np.bool_]]:
        """Pixels of each marker, a little inside its edges.

        Parameters
        ----------
        shape : rows and columns of the photo at this scale.
        """
        side = INSIDE_MARKER * self._sheet.side_mm
        return [self._filled(marker.corners_mm(side), shape) for marker in self._sheet.markers]

    def printed(self, shape: tuple[int, int]) -> NDArray[np.bool_]:
        """Pixels of the markers and of what is close to them.

        Parameters
        ----------
        shape : rows and columns of the photo at this scale.
        """
        found = np.zeros(shape, np.bool_)
        for marker in self._sheet.markers:
            found |= self._filled(marker.corners_mm(AROUND_MARKER * self._sheet.side_mm), shape)
        return found

    def _filled(self, corners: object, shape: tuple[int, int]) -> NDArray[np.bool_]:
        canvas = np.zeros(shape, np.uint8)
        at = self._seen(np.array(corners, np.float64))
        cv2.fillPoly(canvas, [np.rint(np.clip(at, -30000, 30000)).astype(np.int32)], 1)
        return canvas > 0


def palette(light: Floats, colors: Floats, ground: Ground, floor: float) -> Floats:
    """(n, 2) chromaticities of backdrop, paper and ink.

    Parameters
    ----------
    light : (h, w, 3) linear light.
    colors : (h, w, 2) its chromaticity.
    ground : where the sheet is on it.
    floor : of the chromaticities.

    Source: medians over all markers; k-means (Lloyd 1982, from memory), as OpenCV has it, with a fixed start.
    """
    sides = [
        light[on] for on in ground.markers((light.shape[0], light.shape[1])) if np.count_nonzero(on) >= LEAST_PIXELS
    ]
    if not sides:
        return _border_groups(colors)
    ink, paper = (np.median([_at_brightness(side, share) for side in sides], axis=0) for share in (DARK, PALE))
    known = np.concatenate([_border_groups(colors), _mixed(ink, paper, floor)]).astype(np.float32)
    return np.concatenate([known, _lit_paper(light, colors, ground, known, float(paper.sum()))]).astype(np.float32)


def _lit_paper(light: Floats, colors: Floats, ground: Ground, known: Floats, bright: float) -> Floats:
    """(n, 2) chromaticities of what is surely paper in the sheet's middle: as light as paper, and nearly of its color.

    Light that the piece throws on the paper tints it; a piece so light is far from the paper's color, and
    its undersides that take that color are dark.
    """
    middle = ground.middle((light.shape[0], light.shape[1]))
    own = colors[middle]
    sure = (apart(own[None], known)[0] < LIT_APART) & (light[middle].sum(axis=1) > LIT_SHARE * bright)
    if np.count_nonzero(sure) < LEAST_PIXELS:
        return np.zeros((0, 2), np.float32)
    return groups_of(own[sure], LIT_GROUPS, LEAST_GROUP)[0]


def _at_brightness(light: Floats, share: float) -> Floats:
    """(3,) light of the pixels about a rank of brightness: the piece before a few of the markers moves no median."""
    order = np.argsort(light.sum(axis=1))
    at, some = int(share * len(order)), max(2, len(order) // 20)
    return np.asarray(np.median(light[order[max(0, at - some) : at + some]], axis=0), np.float32)


def _mixed(ink: Floats, paper: Floats, floor: float) -> Floats:
    """(n, 2) chromaticities of ink, paper and pixels that hold some of both."""
    share = np.linspace(0.0, 1.0, MIXTURES)[:, None] ** 2
    return chroma(np.asarray((1 - share) * ink + share * paper, np.float32), floor)


def _border_groups(colors: Floats) -> Floats:
    edge = max(2, round(BORDER_SHARE * min(colors.shape[:2])))
    inner = np.ones(colors.shape[:2], np.bool_)
    inner[edge:-edge, edge:-edge] = False
    middles, share = groups_of(colors[inner], GROUPS, LEAST_GROUP)
    main = middles[share >= MAIN_GROUP]
    if not len(main):
        return middles
    near: NDArray[np.bool_] = apart(middles[None], main)[0] <= STRANGE_APART
    return np.asarray(middles[near], np.float32)


def groups_of(colors: Floats, count: int, least_share: float) -> tuple[Floats, NDArray[np.float64]]:
    """(n, 2) middles of the groups that chromaticities fall into and (n,) their shares, small ones left out.

    Parameters
    ----------
    colors : (m, 2) chromaticities, one or more.
    count : of groups at most.
    least_share : of all that a group must have.
    """
    samples = np.ascontiguousarray(colors[:: max(1, len(colors) // SAMPLES)])
    count = min(count, len(samples))
    cv2.setRNGSeed(8)
    stop = (cv2.TERM_CRITERIA_EPS + cv2.TERM_CRITERIA_MAX_ITER, 20, 0.005)
    start = np.zeros((len(samples), 1), np.int32)
    _, labels, middles = cv2.kmeans(samples, count, start, stop, 2, cv2.KMEANS_PP_CENTERS)
    share = np.bincount(labels.ravel(), minlength=count) / len(samples)
    return np.asarray(middles[share >= least_share], np.float32), share[share >= least_share]


def apart(colors: Floats, known: Floats) -> Floats:
    """(h, w) distance of each pixel's chromaticity from the nearest of a palette.

    Parameters
    ----------
    colors : (h, w, 2) chromaticity.
    known : (n, 2) the palette.
    """
    return np.sqrt(_nearest(colors, known)[0])


def toward(colors: Floats, known: Floats, own: Floats) -> Floats:
    """(h, w) how far each pixel's chromaticity has gone from the nearest of a palette toward a color of the piece.

    Shadows and bounced light carry sheet and backdrop aside or away from the piece's colors, seldom toward them.

    Parameters
    ----------
    colors : (h, w, 2) chromaticity.
    known : (n, 2) the palette.
    own : (m, 2) colors of the piece.

    Source: our own.
    """
    _, which = _nearest(colors, known)
    furthest = np.full(colors.shape[:2], -np.inf, np.float32)
    for one in own:
        way = one - known
        way = (way / np.maximum(np.linalg.norm(way, axis=1, keepdims=True), 1e-6)).astype(np.float32)
        start = np.einsum("ij,ij->i", known, way).astype(np.float32)
        gone = colors[..., 0] * way[which, 0] + colors[..., 1] * way[which, 1] - start[which]
        np.maximum(furthest, gone, out=furthest)
    return furthest


def _nearest(colors: Floats, known: Floats) -> tuple[Floats, NDArray[np.uint8]]:
    """(h, w) square of the distance from the nearest of a palette, and its number."""
    least = np.full(colors.shape[:2], np.inf, np.float32)
    which = np.zeros(colors.shape[:2], np.uint8)
    for n, one in enumerate(known):
        a, b = colors[..., 0] - one[0], colors[..., 1] - one[1]
        square = a * a + b * b
        which[square < least] = n
        np.minimum(least, square, out=least)
    return least, which
