"""Whole plans of awkward bodies: solids are whole, volumes add up, through-holes are told, the shell comes free."""

from __future__ import annotations

from collections.abc import Callable

import geometry_bodies as bodies
import pytest
from job_meshes import meshes_of, parts_ml

from moldwright.commission.orders import Commission, MoldOrder, OriginalOrder
from moldwright.geometry.mesh import Mesh
from moldwright.job.planning import Planned, make_plan
from moldwright.materials import library
from moldwright.progress import silent
from moldwright.store.memory import NoStore

pytestmark = pytest.mark.slow


def small() -> Mesh:
    """20 mm tall, sampled at 0.2 mm."""
    return bodies.mesh(bodies.cone(6, 5, 12, 32) + bodies.ball(6, 32, (0, 0, 14)))


def plate() -> Mesh:
    """2 mm thin, standing on its edge."""
    return bodies.mesh(bodies.box(50, 2, 60))


def ball_on_a_point() -> Mesh:
    return bodies.mesh(bodies.ball(25, 64, (0, 0, 25)))


def open_bottom() -> Mesh:
    return bodies.open_below(bodies.mesh(bodies.cone(20, 12, 50, 48)))


def hole_in_the_side() -> Mesh:
    return bodies.holed(bodies.stump())


def ring_on_edge() -> Mesh:
    return bodies.mesh(bodies.torus(20, 6, 64, 32).rotate((90, 0, 0)).translate((0, 0, 25)).trim_by_plane((0, 0, 1), 0))


def mushroom() -> Mesh:
    return bodies.mesh(bodies.cone(6, 6, 40, 32) + bodies.cone(25, 25, 8, 48).translate((0, 0, 40)))


def needle() -> Mesh:
    return bodies.mesh(bodies.cone(10, 0.2, 60, 32))


def cup() -> Mesh:
    """Open above, a deep inside."""
    return bodies.mesh(bodies.cone(22, 25, 60, 64) - bodies.cone(18, 21, 60, 64).translate((0, 0, 4)))


def long_arm() -> Mesh:
    """An arm that reaches out past the flange."""
    arm = bodies.cone(5, 5, 90, 24).rotate((0, 90, 10)).translate((0, 0, 40))
    return bodies.mesh(bodies.cone(14, 12, 50, 32) + arm)


def far_from_its_origin() -> Mesh:
    return bodies.mesh(bodies.cone(14, 12, 50, 32).translate((200, -130, 40)))


# A ring has one through-hole; four legs on a plinth that joins them have three (the genus of a table on a slab).
HOLES = {ring_on_edge: 1, bodies.table: 3}


def planned(body: Mesh) -> Planned:
    order = Commission(OriginalOrder("piece.off", unit="mm", up="+z"), mold=MoldOrder(flange_mm=20.0))
    return make_plan(order, bodies.scan(body), library(), NoStore(), silent)


@pytest.mark.parametrize(
    "make",
    [small, plate, ball_on_a_point, bodies.table, open_bottom, hole_in_the_side, ring_on_edge, mushroom, needle, cup,
     long_arm, far_from_its_origin],
)  # fmt: skip
def test_an_awkward_body_is_planned_whole(make: Callable[[], Mesh], coarse_search: None) -> None:
    found = planned(make())
    volume = {name: mesh.volume_mm3 / 1000 for name, mesh in meshes_of(found).items()}
    for name, mesh in meshes_of(found).items():
        assert mesh.why_invalid() == "", name
        assert len(bodies.solid(mesh).decompose()) == 1, name
    glove = found.plan.glove
    assert parts_ml(glove) == pytest.approx(volume["mold/glove.stl"], rel=1e-3)
    bare = volume["mold/gloved.stl"] - volume["mold/original.stl"] - volume.get("mold/mount.stl", 0.0)
    assert volume["mold/glove.stl"] == pytest.approx(bare, rel=1e-3)
    removal = found.plan.shell.removal
    assert (removal.checked, removal.overlap_mm3, removal.rays_blocked) == (True, 0.0, 0)
    assert removal.control_overlap_mm3 > 0
    assert len(found.plan.original.holes) == HOLES.get(make, 0)
    assert any(caution.step == "handles" for caution in found.plan.cautions) == (make in HOLES)
    original = meshes_of(found)["mold/original.stl"].vertices
    foot = original[original[:, 2] < original[:, 2].min() + 1e-6, :2]
    assert foot.min(axis=0) == pytest.approx(-foot.max(axis=0), abs=0.2)
