"""What all tests share (and, by its place, lets them import the modules beside it)."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import geometry_bodies as bodies
import pytest
from hypothesis import settings
from shops import postgres, shop, shop_at  # noqa: F401

from moldwright.commission.orders import Commission, MoldOrder, OriginalOrder
from moldwright.geometry.mesh import Mesh
from moldwright.job import forming, shelling, straining
from moldwright.job.planning import Planned, make_plan
from moldwright.materials import library
from moldwright.progress import silent
from moldwright.scan.scan import Scan
from moldwright.store.memory import MemoryStore

settings.register_profile("whole", deadline=None)
settings.load_profile("whole")
"""How long a case takes depends on what else the machine does: no test fails for it."""


class Job(NamedTuple):
    """A small figure, its order, and the store that its plan was made in."""

    order: Commission
    scan: Scan
    store: MemoryStore
    planned: Planned


def small_figure() -> Mesh:
    """On a slender stem, which needs a plinth."""
    return bodies.mesh(bodies.figure(bodies.cone(9, 8, 40, 32)))


@pytest.fixture(scope="session")
def coarse_search() -> Iterator[None]:
    """The search for the seam on a grid half as fine, which all else follows: an eighth of its time; the glove as a
    sheet of few triangles."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(shelling, "SEARCH_STEPS", 30)
        patch.setattr(forming, "POINTS", 6_000)
        patch.setattr(forming, "TRIES", 20_000)
        patch.setattr(forming, "COARSE_STEPS", 30)
        patch.setattr(straining, "TRIANGLES", (400,))
        yield


@pytest.fixture(scope="session")
def small_job(coarse_search: None) -> Job:
    """One real plan for all tests of a session."""
    return planned_figure()


def planned_figure() -> Job:
    """The small figure, planned."""
    order = Commission(
        OriginalOrder("figure.off", unit="mm", up="+z"),
        mold=MoldOrder(thickness_mm=4.0, flange_mm=20.0),
        given=("original.file", "original.unit", "original.up", "mold.thickness", "mold.flange"),
    )
    scan, store = bodies.scan(small_figure()), MemoryStore()
    return Job(order, scan, store, make_plan(order, scan, library(), store, silent))
