"""The real job on a small cone: the same plan twice is the same text; a new temperature computes no geometry again."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from functools import lru_cache

import numpy as np
import pytest

from moldwright.commission.orders import Commission, EditionOrder, OriginalOrder
from moldwright.geometry.mesh import Mesh
from moldwright.job.planning import Planned, make_plan
from moldwright.materials import library
from moldwright.plan.json_text import plan_to_json
from moldwright.scan.scan import Scan
from moldwright.store.memory import MemoryStore, Store

SIDES = 32
ORDER = Commission(OriginalOrder("cone.off", unit="mm", up="+z"), given=("original.file", "original.unit"))


@lru_cache(maxsize=1)
def cone() -> Scan:
    """A cone cut off: radius 25 mm below and 12 mm above, 45 mm tall."""
    turn = np.linspace(0, 2 * np.pi, SIDES, endpoint=False)
    ring = np.c_[np.cos(turn), np.sin(turn), np.zeros(SIDES)]
    vertices = np.r_[ring * 25, ring * 12 + (0, 0, 45), [(0, 0, 0), (0, 0, 45)]]
    faces: list[tuple[int, int, int]] = []
    for i in range(SIDES):
        j = (i + 1) % SIDES
        faces += [
            (i, j, SIDES + j),
            (i, SIDES + j, SIDES + i),
            (2 * SIDES, j, i),
            (2 * SIDES + 1, SIDES + i, SIDES + j),
        ]
    return Scan(Mesh(vertices, np.array(faces, dtype=np.int32)), None, None, 1, "off", (), True)


def planned(order: Commission, store: Store, told: list[str]) -> Planned:
    return make_plan(order, cone(), library(), store, lambda stage, fraction: told.append(stage))


@pytest.mark.slow
def test_a_new_temperature_price_or_edition_computes_no_geometry() -> None:
    store, told = MemoryStore(), list[str]()
    first = planned(ORDER, store, told)
    assert told
    for changed in (
        replace(ORDER, shop=replace(ORDER.shop, temperature_c=27.0)),
        replace(ORDER, prices=(("talc", Decimal("4.50")),)),
        replace(ORDER, edition=EditionOrder(50)),
    ):
        told.clear()
        again = planned(changed, store, told)
        assert told == []
        assert all(again.meshes[name] is mesh for name, mesh in first.meshes.items())
        assert again.plan.glove.volume_ml == first.plan.glove.volume_ml
    warmer = planned(replace(ORDER, shop=replace(ORDER.shop, temperature_c=27.0)), store, told)
    assert warmer.plan.mixes[0].work_by_s < first.plan.mixes[0].work_by_s


@pytest.mark.slow
def test_the_same_commission_twice_is_the_same_text() -> None:
    one, two = (planned(ORDER, MemoryStore(), []) for _ in range(2))
    assert plan_to_json(one.plan) == plan_to_json(two.plan)
    for name, mesh in one.meshes.items():
        np.testing.assert_array_equal(mesh.vertices, two.meshes[name].vertices)
