"""Where a glove is slit, and what is refused; on a trunk with a head, whose sides are known."""

from __future__ import annotations

import geometry_bodies as bodies
import numpy as np
import pytest
import shapely
from conftest import Job

from moldwright.errors import NoSafePlan
from moldwright.geometry.closest import away_from_mesh
from moldwright.job.peel_way import refuse_what_does_not_bend
from moldwright.job.peeling import refuse_a_glove_not_slit
from moldwright.materials import Rubber, library
from moldwright.materials.kinds import Kind
from moldwright.materials.peel_limits import BENDS, allowed_stretch
from moldwright.mold.peel_places import Peeled, peeled_of, tight_places
from moldwright.mold.peel_surface import peel_surface
from moldwright.mold.seam_line import length_mm
from moldwright.mold.seam_stations import toward
from moldwright.mold.slit import slit_plan
from moldwright.mold.slit_path import corner_costs, opened, slit_paths
from moldwright.plan.peel import elongation_pct
from moldwright.plan.seam import ViewSide, place_of


@pytest.fixture(scope="module")
def mushroom() -> Peeled:
    """A neck of 10 mm radius, 40 mm tall, under a ball of 24 mm radius."""
    body = bodies.mesh(bodies.cone(10, 10, 50, 64) + bodies.ball(24, 64, (0, 0, 60)))
    return peeled_of(peel_surface(body, body, 13.0), ())


def cut(peeled: Peeled, side: ViewSide | None, allowed: float = 1.5) -> tuple[np.ndarray, ...]:
    tight = np.flatnonzero(peeled.stretch > allowed)
    return slit_paths(peeled, tight, corner_costs(peeled, [], side))


@pytest.mark.parametrize("side", [None, *ViewSide])
def test_it_runs_up_the_chosen_side_else_the_back(mushroom: Peeled, side: ViewSide | None) -> None:
    (path,) = cut(mushroom, side)
    way = toward(side or ViewSide.BACK)
    lengths = np.maximum(np.linalg.norm(path[:, :2], axis=1), 1e-9)
    assert (path[:, :2] @ way[:2] / lengths >= 0.8).all()


def test_it_opens_every_loop_that_is_too_tight(mushroom: Peeled) -> None:
    """From the board to where the ball is so wide as the rubber may become: 24 mm / 1.5 = 16 mm radius, at a height of
    60 - sqrt(24^2 - 16^2) = 42.1 mm; up the neck that is 36.. mm and an arc of the ball."""
    (path,) = cut(mushroom, None)
    tight = np.flatnonzero(mushroom.stretch > 1.5)
    assert path[0, 2] == 0.0
    assert path[-1, 2] == pytest.approx(60 - np.sqrt(24**2 - 16**2), abs=3.0)
    assert np.hypot(*path[-1, :2]) == pytest.approx(16.0, abs=2.0)
    straight = 60 - np.sqrt(24**2 - 10**2) + 24 * (np.arcsin(16 / 24) - np.arcsin(10 / 24))
    assert length_mm(path) == pytest.approx(straight, rel=0.08)
    assert opened(mushroom, tight)[tight].all()
    assert mushroom.stretch[~opened(mushroom, tight)].max() <= 1.5


def test_two_heads_are_opened_by_two_cuts_that_meet() -> None:
    neck = bodies.cone(6, 6, 40, 48)
    head = neck + bodies.ball(14, 48, (0, 0, 45))
    block = bodies.box(90, 40, 20)
    body = bodies.mesh(block + head.translate((-28, 0, 20)) + head.translate((28, 0, 20)))
    found = peeled_of(peel_surface(body, body, 13.0), ())
    paths = cut(found, ViewSide.FRONT)
    assert sorted(round(np.sign(path[-1, 0])) for path in paths) == [-1, 1]


def test_a_rubber_that_does_not_bend_back_is_refused() -> None:
    refuse_what_does_not_bend(BENDS)
    with pytest.raises(NoSafePlan) as refused:
        refuse_what_does_not_bend(1.2)
    assert (refused.value.code, refused.value.actual, refused.value.limit) == ("rubber-too-stiff", 33, 20)


def test_a_glove_that_is_not_to_be_slit_is_refused_with_the_place(mushroom: Peeled) -> None:
    (tightest, *_) = tight_places(mushroom)
    with pytest.raises(NoSafePlan) as refused:
        refuse_a_glove_not_slit(tightest, 1.5, bodies.mesh(bodies.cone(30, 20, 60)))
    assert (refused.value.code, refused.value.limit, refused.value.unit) == ("slit-not-wanted", 50, "%")
    assert refused.value.actual == pytest.approx(140, abs=2), "24 mm over 10 mm: 2.4 times, 140 %"
    assert "63 mm" in refused.value.remedy
    assert "151 mm" in refused.value.remedy


def test_every_shipped_rubber_may_be_rolled() -> None:
    rubbers = library().sheets[Kind.RUBBER].values()
    assert rubbers
    for rubber in rubbers:
        assert isinstance(rubber, Rubber)
        assert allowed_stretch(rubber.elongation_pct.range) >= BENDS, rubber.name


def test_elongation_is_what_is_added() -> None:
    """Stretched to three times its length a strip is 200 % longer (ISO 37, from memory)."""
    assert elongation_pct(3.0) == pytest.approx(200.0)


def test_a_slit_is_told_on_the_outside_of_the_rubber_and_over_the_flange(small_job: Job) -> None:
    """The figure's stem, on its plinth: nothing of the slit lies off the gloved piece, it begins where it comes over
    the flange, and no cast keeps what runs over the plinth."""
    solids = small_job.planned.solids
    mounted, shell, plan = solids.mounted.value, solids.shell.value, small_job.planned.plan
    flange_mm = small_job.order.mold.thickness_mm
    tight = np.flatnonzero(solids.peeled.value.stretch > 1.5)
    paths = slit_paths(solids.peeled.value, tight, corner_costs(solids.peeled.value, [], ViewSide.LEFT))
    slit = slit_plan(paths, 1.2, shell.gloved, plan.flange, flange_mm, mounted.plinth_height_mm)
    (line, *_), (crossing, *_) = slit.line.lines, slit.line.crossings
    places = np.array([place_of(station, plan.flange.frame) for station in line.stations])
    assert away_from_mesh(places, shell.gloved).max() < 0.6
    assert places[0, 2] == pytest.approx(flange_mm + 0.5, abs=0.6)
    assert line.begins == 0
    assert line.ends is None
    assert shapely.LinearRing(plan.flange.outline).distance(shapely.Point(crossing.edge)) < 0.1
    assert 0.0 < slit.on_cast_mm < slit.length_mm
