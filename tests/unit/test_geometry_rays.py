"""Rays against bodies of known size, and that one file alone talks to the ray caster."""

from __future__ import annotations

from pathlib import Path

import geometry_bodies as bodies
import numpy as np
import pytest

from moldwright.geometry.rays import Rays, hit_distances

SOURCE = Path(__file__).parents[2] / "src"


def test_distances_to_a_box_and_past_it() -> None:
    """Closed form: a box 10 mm wide seen along x from 20 mm before its middle is 15 mm away."""
    box = bodies.mesh(bodies.box(10, 10, 10))
    found = hit_distances(box, np.array([[-20.0, 0.3, 5.1], [-20.0, 0.3, 50.0]]), np.array([1.0, 0.0, 0.0]))
    assert found[0] == pytest.approx(15.0, abs=1e-5)
    assert found[1] == np.inf


def test_which_solid_is_met_first() -> None:
    near, far = bodies.mesh(bodies.box(10, 10, 10)), bodies.mesh(bodies.box(10, 10, 10)).moved((30.0, 0.0, 0.0))
    start = np.array([[-20.0, 0.3, 5.1], [15.0, 0.3, 5.1], [50.0, 0.3, 5.1]])
    found = Rays([near, far]).first_hits(start, np.array([1.0, 0.0, 0.0]))
    assert found.solid.tolist() == [0, 1, -1]
    assert found.face[2] == -1
    assert found.distance_mm == pytest.approx([15.0, 10.0, np.inf], abs=1e-5)
    corners = (near, far)[0].corners[found.face[0]]
    assert corners[:, 0] == pytest.approx(-5.0), "the face that looks at the ray"


def test_one_file_talks_to_the_ray_caster() -> None:
    users = {path.name for path in SOURCE.rglob("*.py") if "embreex" in path.read_text(encoding="utf-8")}
    assert users == {"rays.py"}
