"""The seam's line without the steps of the grid that it was searched on: evened along itself, kept on the rubber."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage
from scipy.spatial import cKDTree

from moldwright.geometry.field import Sampled
from moldwright.geometry.mesh import Mesh

Points = NDArray[np.float64]

APART_MM, EVEN_MM = 1.0, 3.0
"""Points stand so far apart; along the line it is evened over about so much: our choice."""
MOST_MM = 0.8
"""No point is moved farther: our choice."""
FEWEST = 3
TRIED = 16
"""Triangles that are tried for the nearest point, those with the nearest middles."""


class Evened:
    """Lines on a mesh of small triangles, evened.

    Parameters
    ----------
    mesh : the gloved piece [mm].
    border : signed distance to the seam [mm].
    """

    def __init__(self, mesh: Mesh, border: Sampled) -> None:
        self._corners = mesh.corners
        self._middles = cKDTree(self._corners.mean(axis=1))
        self._border = border

    def line(self, points: Points, closed: bool) -> Points:
        """A line evened along itself, moved only from one piece toward the other; the ends of an open one stay.

        Parameters
        ----------
        points : (n, 3) in order, on the mesh [mm].
        closed : the last joined to the first.

        Source: our own, with a Gaussian along the line.
        """
        points = _spaced(points, closed)
        if len(points) < FEWEST:
            return points
        aside = _even(self._aside(points), closed, turned=False)
        aside /= np.maximum(np.linalg.norm(aside, axis=1, keepdims=True), 1e-12)
        far = ((_even(points, closed, turned=True) - points) * aside).sum(axis=1, keepdims=True)
        on = self.onto(points + np.clip(far, -MOST_MM, MOST_MM) * aside)
        return on if closed else np.concatenate([points[:1], on[1:-1], points[-1:]])

    def _aside(self, points: Points) -> Points:
        """(n, 3) the way on which the border's distance grows."""
        grid = self._border.grid
        index = (points - grid.origin) / grid.step_mm
        ways = [self._at(index + step) - self._at(index - step) for step in np.eye(3)]
        return np.stack(ways, axis=1)

    def _at(self, index: Points) -> Points:
        found: Points = ndimage.map_coordinates(self._border.field, index.T, order=1, mode="nearest").astype(np.float64)
        return found

    def onto(self, points: Points) -> Points:
        """The nearest points of the mesh.

        Parameters
        ----------
        points : (n, 3) no farther from it than its triangles are large [mm].

        Source: the nearest point of a triangle by the regions of its features (Ericson 2005, "Real-time collision
        detection", section 5.1.5; from memory).
        """
        _, near = self._middles.query(points, k=min(TRIED, len(self._corners)))
        found = _nearest(points[:, None], self._corners[near])
        best = np.linalg.norm(found - points[:, None], axis=2).argmin(axis=1)
        on: Points = found[np.arange(len(points)), best]
        return on


def _spaced(points: Points, closed: bool) -> Points:
    """Points evenly apart along a line, its ends among them."""
    whole = np.concatenate([points, points[:1]]) if closed else points
    along = np.concatenate([[0.0], np.linalg.norm(np.diff(whole, axis=0), axis=1).cumsum()])
    places = np.linspace(0.0, along[-1], max(2, round(along[-1] / APART_MM) + 1))
    spaced = np.stack([np.interp(places, along, whole[:, axis]) for axis in range(3)], axis=1)
    return spaced[:-1] if closed else spaced


def _even(values: Points, closed: bool, turned: bool) -> Points:
    """Values along a line, evened; beyond the ends of an open one they go on turned about them, or mirrored."""
    reach = min(int(3 * EVEN_MM / APART_MM), len(values) - 1)
    before, after = values[1 : reach + 1][::-1], values[-reach - 1 : -1][::-1]
    if closed:
        before, after = values[-reach:], values[:reach]
    elif turned:
        before, after = 2 * values[0] - before, 2 * values[-1] - after
    padded = np.concatenate([before, values, after])
    even: Points = ndimage.gaussian_filter1d(padded, EVEN_MM / APART_MM, axis=0)[reach : reach + len(values)]
    return even


def _nearest(points: Points, corners: Points) -> Points:
    """The nearest point of each triangle: over its face where that is, else on its nearest side."""
    a, b, c = (corners[..., k, :] for k in range(3))
    across = np.cross(b - a, c - a)
    size = np.maximum((across * across).sum(axis=-1), 1e-18)
    foot = points - (((points - a) * across).sum(axis=-1) / size)[..., None] * across
    over = np.ones(foot.shape[:-1], dtype=bool)
    best, least = foot, np.full(foot.shape[:-1], np.inf)
    for start, end in ((a, b), (b, c), (c, a)):
        over &= (np.cross(end - start, foot - start) * across).sum(axis=-1) >= 0
        side = end - start
        share = ((points - start) * side).sum(axis=-1) / np.maximum((side * side).sum(axis=-1), 1e-18)
        on_side = start + np.clip(share, 0.0, 1.0)[..., None] * side
        far = np.linalg.norm(points - on_side, axis=-1)
        best = np.where((far < least)[..., None], on_side, best)
        least = np.minimum(least, far)
    nearest: Points = np.where((over & (size > 1e-17))[..., None], foot, best)
    return nearest
