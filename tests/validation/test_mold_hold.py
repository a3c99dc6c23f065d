"""What a wet coat's surface holds, against closed forms.

Sources: a Bingham layer slides where rho g h sin(slope) passes its yield stress (Mezger, "The rheology handbook"; from
memory); the area of a sphere's zone is as its height (Archimedes, "On the sphere and cylinder").
"""

from __future__ import annotations

import geometry_bodies as bodies
import numpy as np
import pytest

from moldwright.mold.hold import hold_mm, slumping_share, wall_hold_mm
from moldwright.mold.slopes import slopes_of

SOURCE = (
    "Mezger, The rheology handbook: a Bingham layer slides where its stress passes the yield stress (from memory)",
    "Archimedes, On the sphere and cylinder: the area of a sphere's zone is as its height (from memory)",
)
NEVER = 1e9


@pytest.mark.parametrize(("slope_deg", "held_mm"), [(90.0, 4.635), (45.0, 6.555), (30.0, 9.270)])
def test_a_slope_holds_by_its_sine(slope_deg: float, held_mm: float) -> None:
    """50 Pa, 1.1 g/ml: 50 / (1100 x 9.80665 x sin); within 0.1 %."""
    wall = wall_hold_mm(50.0, 1.1)
    held = hold_mm(np.cos(np.radians([slope_deg])), wall, NEVER)[0]
    assert held == pytest.approx(held_mm, rel=1e-3)


@pytest.mark.parametrize("held", [0.3, 0.6, 0.9])
def test_a_dome_slumps_where_it_is_steep(held: float) -> None:
    """On a half ball a layer of 1 slides where the sine of the slope passes what a wall holds: below the height
    sqrt(1 - held^2) of the radius, and the zone's area is as its height. A mesh of 96 around, 80 bins: within 0.03."""
    dome = bodies.ball(30, 96, (0, 0, 0)).trim_by_plane((0, 0, 1), 0.0)
    slopes = slopes_of(bodies.mesh(dome))
    assert sum(slopes) == pytest.approx(1.0)
    assert slumping_share(slopes, 1.0, held, NEVER) == pytest.approx(np.sqrt(1 - held**2), abs=0.03)


def test_what_looks_down_drips() -> None:
    """Of a ball that stands on a pole half looks down: with a ceiling that holds half a layer it drips where the cosine
    passes one half, a zone of a quarter of the ball; with walls that hold anything. Within 0.03."""
    ball = bodies.mesh(bodies.ball(30, 96, (0, 0, 60)))
    assert slumping_share(slopes_of(ball), 1.0, NEVER, 0.5) == pytest.approx(0.25, abs=0.03)
