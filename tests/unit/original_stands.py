"""Scans made to stand, for the tests of mending."""

from __future__ import annotations

import geometry_bodies as bodies
import numpy as np
import pytest
from peer_distance import peer_distance

from moldwright.geometry.mesh import Mesh
from moldwright.original.mending.solid import Standing, stand
from moldwright.original.standing.place import place


def standing(body: Mesh) -> Standing:
    found = stand(place(bodies.scan(body)).mesh)
    assert found.mesh.why_invalid() == ""
    assert len(bodies.solid(found.mesh).decompose()) == 1
    assert found.mesh.bounds_mm[0][2] == pytest.approx(0, abs=1e-6)
    return found


def standing_cut(body: Mesh, board_mm: float) -> Standing:
    found = stand(place(bodies.scan(body), board_mm=board_mm).mesh)
    assert found.mesh.why_invalid() == ""
    return found


STUMP_ML = bodies.solid(bodies.stump()).volume() / 1000


def dome() -> Mesh:
    """A ball that the board cuts off."""
    return bodies.mesh(bodies.ball(25, 96, (0, 0, 20)).trim_by_plane((0, 0, 1), 0))


def furthest_mm(found: Standing, body: Mesh) -> float:
    """How far points of the scan over the board lie from the solid at most (libigl, reference library)."""
    fine = bodies.mesh(bodies.solid(place(bodies.scan(body)).mesh).refine_to_length(1.5)).vertices
    fine = fine[fine[:, 2] > 0.5 * found.step_mm]
    return float(peer_distance(fine, found.mesh).max())


def torn(mesh: Mesh) -> Mesh:
    """The mesh without its highest triangle."""
    highest = int(np.argmax(mesh.corners[:, :, 2].min(axis=1)))
    return Mesh(mesh.vertices, np.delete(mesh.faces, highest, axis=0))
