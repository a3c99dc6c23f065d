"""The shell's draft: what is packed so that a piece still draws off askew, by closed forms of a wall and a cone."""

from __future__ import annotations

from functools import cache

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest

from moldwright.geometry.directions import cone_about
from moldwright.geometry.mesh import Mesh
from moldwright.mold.removal import check_removal
from moldwright.mold.shell import build_shell
from moldwright.mold.shell_settings import ShellSettings
from moldwright.mold.space import hidden_share, space_about
from moldwright.mold.split import SpaceCut, SplitSettings
from moldwright.mold.split_search import splits_about

UP = np.array([0.0, 0.0, 1.0])
DEGREES = range(6)
SIDE_MM, TALL_MM, WIDE_MM, STEP_MM = 60.0, 60.0, 12.0, 1.0


def leaning() -> Mesh:
    """A block with an arm that leans out over the board."""
    arm = bodies.box(44, 14, 12).rotate((0, -35, 20)).translate((14, 2, 26))
    return bodies.mesh(bodies.box(30, 26, 44) + arm)


def test_a_cone_holds_every_narrower_one_and_opens_by_its_angle() -> None:
    axis = np.array([2.0, -1.0, 2.0]) / 3.0
    for degrees in DEGREES:
        rays = cone_about(axis, degrees)
        assert np.allclose(np.linalg.norm(rays, axis=1), 1.0)
        off = np.degrees(np.arccos(np.clip(rays @ axis, -1, 1)))
        assert off.max(initial=0.0) == pytest.approx(degrees, abs=1e-6)
        assert np.allclose(rays, cone_about(axis, degrees + 1)[: len(rays)])


@pytest.mark.parametrize("degrees", DEGREES)
def test_an_upright_wall_is_packed_to_a_slope(degrees: int) -> None:
    """Beside a wall h tall, seen from above, a ray off the draw by a meets it from as far as (h - z) tan a: of a strip
    1 mm wide h^2 tan a / 2 is packed. A block 60 mm tall on a grid of 1 mm, at the middle of a side that faces a ray;
    the area within a tenth."""
    space = space_about(bodies.mesh(bodies.box(SIDE_MM, SIDE_MM, TALL_MM)), WIDE_MM, 0.0, STEP_MM)
    share = hidden_share(space.field, UP, STEP_MM, degrees)
    middle = share[space.grid.shape[0] // 2]
    beside = middle[space.grid.axis(1) > 0]
    exact_mm2 = TALL_MM**2 * np.tan(np.radians(degrees)) / 2
    assert float(beside.sum()) * STEP_MM**2 == pytest.approx(exact_mm2, rel=0.1, abs=2.0)


@cache
def tried(degrees: int) -> tuple[list[float], list[float]]:
    """Energy in at most one to three pieces, and the rubber that one piece upward needs."""
    settings = SplitSettings(tilts_deg=(0, 36), draft_deg=degrees)
    splits = splits_about(leaning(), 8.0, 0.0, 4.0, settings, most=3)
    cut = SpaceCut(space_about(leaning(), 8.0, 0.0, 4.0), settings)
    return [splits.least(k).energy_ml for k in (1, 2, 3)], [cut.all_in_one(UP[None]).fill_ml]


@pytest.mark.parametrize("degrees", DEGREES[1:])
def test_more_draft_never_needs_less(degrees: int) -> None:
    """Along one draw what a wider cone hides holds what a narrower hides; so does the best of all splits for it."""
    energies, (upward,) = tried(degrees)
    before, (upward_before,) = tried(degrees - 1)
    assert upward >= upward_before
    assert energies[0] >= before[0] - 1e-6
    assert all(more >= less - 1e-6 for more, less in zip(energies[1:2], before[1:2], strict=True))


def test_a_shell_with_draft_draws_off_askew() -> None:
    """Along its draws turned by the draft, twelve ways round, every piece clears rubber and the others; one planned
    without does not everywhere."""
    core = leaning()
    assert askew_free(core, 4, 4)
    assert not askew_free(core, 0, 4)


def askew_free(core: Mesh, draft_deg: int, askew_deg: int) -> bool:
    """Whether all pieces come off along every ray of a cone about their draws."""
    settings = ShellSettings(draft_deg=draft_deg, seam_flange_mm=8.0)
    split = splits_about(core, 8.0, 0.0, 4.0, SplitSettings(tilts_deg=(0, 36), draft_deg=draft_deg)).of(2)
    low, high = core.bounds_mm
    outline = np.array([[low[0], low[1]], [high[0], low[1]], [high[0], high[1]], [low[0], high[1]]])
    shell = build_shell(core, outline, 0.0, split, 1.5, settings)
    meshes = tuple(piece.mesh for piece in shell.pieces)
    rays = [cone_about(np.array(piece.draw), askew_deg)[-6:] for piece in shell.pieces]
    return all(
        check_removal((mesh,), (tuple(map(float, ray)),), shell.gloved).overlap_mm3 <= 1e-6
        for mesh, cone in zip(meshes, rays, strict=True)
        for ray in cone
    )


def test_the_cone_of_a_round_post_is_nearly_a_frustum() -> None:
    """A post of radius r and height h drawn upward with draft a is packed to a frustum: pi (r h^2 t + h^3 t^2 / 3), t
    the tangent of a. Six rays about the draw pack a little less, never more than a step's rounding."""
    radius, tall, degrees = 20.0, 40.0, 5
    space = space_about(bodies.mesh(m3.Manifold.cylinder(tall, radius, radius, 96)), WIDE_MM, 0.0, STEP_MM)
    packed_mm3 = float(hidden_share(space.field, UP, STEP_MM, degrees).sum()) * STEP_MM**3
    slope = np.tan(np.radians(degrees))
    exact = np.pi * (radius * tall**2 * slope + tall**3 * slope**2 / 3)
    assert 0.85 * exact <= packed_mm3 <= 1.05 * exact
