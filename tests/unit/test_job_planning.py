"""Rules of the whole job on a small figure: what is recalled, what is computed again, what is refused."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from typing import Any, TypeVar

import geometry_bodies as bodies
import pytest
from conftest import Job

from moldwright.commission.orders import CastOrder, Commission, EditionOrder, MoldOrder, OriginalOrder, ShopOrder
from moldwright.errors import InputRefused, NoSafePlan
from moldwright.job import solids_chain
from moldwright.job.planning import Planned, make_plan
from moldwright.job.solids_chain import Glove, Settled
from moldwright.materials import library
from moldwright.mold.glove import CoatedBody
from moldwright.mold.mouth import Mounted
from moldwright.mold.shell import Shell
from moldwright.plan.json_text import plan_to_json
from moldwright.scan.scan import Scan
from moldwright.store.memory import MemoryStore

T = TypeVar("T")
STAGES = ("settle", "_mount", "_coat", "_shell", "_glove")
ALL = Counter(dict.fromkeys(STAGES, 1))


class Recall(MemoryStore):
    """Reads what another store keeps, and keeps new results to itself."""

    def __init__(self, other: MemoryStore) -> None:
        super().__init__()
        self._other = other

    def get(self, key: str, kind: type[T]) -> T | None:
        own = super().get(key, kind)
        return own if own is not None else self._other.get(key, kind)


def plan(order: Commission, scan: Scan, store: MemoryStore) -> Planned:
    return make_plan(order, scan, library(), store, lambda stage, fraction: None)


@pytest.fixture
def called(monkeypatch: pytest.MonkeyPatch) -> Counter[str]:
    """How often each stage of the geometry is computed."""
    count: Counter[str] = Counter()

    def counted(name: str, stage: Callable[..., Any]) -> Callable[..., Any]:
        def run(*arguments: Any) -> Any:
            count[name] += 1
            return stage(*arguments)

        return run

    for name in STAGES:
        monkeypatch.setattr(solids_chain, name, counted(name, getattr(solids_chain, name)))
    return count


class Stopped(Exception):
    """The first stage that is computed ends the plan."""


@pytest.fixture
def computed(monkeypatch: pytest.MonkeyPatch) -> Callable[[Commission, Scan, MemoryStore], str]:
    """The first stage that an order computes, "" where all is recalled; nothing is really computed."""

    def stop(name: str) -> Callable[..., Any]:
        def run(*arguments: Any) -> Any:
            raise Stopped(name)

        return run

    for name in STAGES:
        monkeypatch.setattr(solids_chain, name, stop(name))

    def first(order: Commission, scan: Scan, store: MemoryStore) -> str:
        try:
            plan(order, scan, store)
        except Stopped as stage:
            return str(stage)
        return ""

    return first


def test_the_same_order_twice_is_the_same_text(small_job: Job, called: Counter[str]) -> None:
    again = plan(small_job.order, small_job.scan, MemoryStore())
    assert called == ALL, "nothing was recalled"
    assert plan_to_json(again.plan) == plan_to_json(small_job.planned.plan)
    for name, mesh in small_job.planned.meshes.items():
        assert mesh.vertices.tobytes() == again.meshes[name].vertices.tobytes()
        assert mesh.faces.tobytes() == again.meshes[name].faces.tobytes()


CHEAP: dict[str, Callable[[Commission], Commission]] = {
    "temperature": lambda o: replace(o, shop=replace(o.shop, temperature_c=27.0)),
    "price": lambda o: replace(o, prices=(("talc", Decimal("4.50")),)),
    "edition": lambda o: replace(o, edition=EditionOrder(50)),
    "paper": lambda o: replace(o, shop=replace(o.shop, paper="letter", units="us")),
    "cup": lambda o: replace(o, shop=ShopOrder(cup_ml=250.0, scale_g=1.0)),
    "rubber": lambda o: replace(o, mold=replace(o.mold, rubber="addition-cure-a20-slow")),
    "resin": lambda o: replace(o, cast=CastOrder(resin="urethane-standard", powder="marble")),
    "material": lambda o: replace(o, original=replace(o.original, material="plastic", name="heron")),
}


@pytest.mark.parametrize("what", CHEAP)
def test_what_shapes_nothing_computes_no_geometry(small_job: Job, called: Counter[str], what: str) -> None:
    changed = plan(CHEAP[what](small_job.order), small_job.scan, Recall(small_job.store))
    assert called == Counter()
    first = small_job.planned
    assert all(changed.meshes[name] is mesh for name, mesh in first.meshes.items())
    assert changed.plan.original == first.plan.original
    assert changed.plan.glove.volume_ml == first.plan.glove.volume_ml


def test_a_warmer_shop_leaves_less_time(small_job: Job) -> None:
    warmer = plan(CHEAP["temperature"](small_job.order), small_job.scan, Recall(small_job.store))
    assert warmer.plan.mixes[0].work_by_s < small_job.planned.plan.mixes[0].work_by_s
    assert warmer.plan.plan_hash != small_job.planned.plan.plan_hash


SHAPING: dict[str, tuple[Callable[[Commission], Commission], str]] = {
    "unit": (lambda o: replace(o, original=replace(o.original, unit="cm")), "settle"),
    "height": (lambda o: replace(o, original=replace(o.original, unit=None, height_mm=70.0)), "settle"),
    "board": (lambda o: replace(o, original=replace(o.original, board_mm=5.0)), "settle"),
    "up": (lambda o: replace(o, original=replace(o.original, up="-z")), "settle"),
    "thickness": (lambda o: replace(o, mold=replace(o.mold, thickness_mm=5.0)), "_coat"),
    "flange": (lambda o: replace(o, mold=replace(o.mold, flange_mm=30.0)), "_coat"),
    "shell": (lambda o: replace(o, mold=replace(o.mold, shell="fiber-gypsum")), "_shell"),
}


@pytest.mark.parametrize("what", SHAPING)
def test_what_shapes_is_computed_from_its_first_stage(
    small_job: Job, computed: Callable[[Commission, Scan, MemoryStore], str], what: str
) -> None:
    change, stage = SHAPING[what]
    assert computed(small_job.order, small_job.scan, Recall(small_job.store)) == ""
    assert computed(change(small_job.order), small_job.scan, Recall(small_job.store)) == stage


def test_the_same_triangles_in_another_unit_of_the_format_are_another_piece(
    small_job: Job, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A file that says inches after one that said millimeters: no stage of the smaller one is recalled.

    What the stages give is taken from a finished job, only which of them are asked for is looked at.
    """
    given = {"settle": Settled, "_mount": Mounted, "_coat": CoatedBody, "_shell": Shell, "_glove": Glove}
    made = {type(value): value for value in small_job.store._kept.values()}
    asked: list[str] = []

    def giving(name: str, result: Any) -> Callable[..., Any]:
        return lambda *arguments: asked.append(name) or result

    for name, kind in given.items():
        monkeypatch.setattr(solids_chain, name, giving(name, made[kind]))
    order = replace(small_job.order, original=OriginalOrder("figure.3mf", up="+z"))
    store = MemoryStore()
    for unit in ("mm", "in"):
        asked.clear()
        plan(order, replace(small_job.scan, unit=unit), store)
        assert asked == list(given)
    asked.clear()
    plan(order, small_job.scan, store)
    assert asked == []


@pytest.mark.parametrize("pieces", [1, 3, 4])
def test_other_counts_of_pieces_are_refused_before_any_geometry(
    small_job: Job, computed: Callable[[Commission, Scan, MemoryStore], str], pieces: int
) -> None:
    order = replace(small_job.order, mold=MoldOrder(pieces=pieces))
    with pytest.raises(InputRefused) as refused:
        computed(order, small_job.scan, MemoryStore())
    assert (refused.value.code, refused.value.actual, refused.value.limit) == ("pieces-not-yet", pieces, 2)
    assert "pieces = 2" in refused.value.remedy


def test_a_closed_hollow_and_bodies_apart_end_the_plan(small_job: Job) -> None:
    hollow = bodies.mesh(bodies.cone(20, 12, 50, 32) - bodies.ball(9, 32, (0, 0, 25)))
    with pytest.raises(NoSafePlan) as refused:
        plan(small_job.order, bodies.scan(hollow), MemoryStore())
    assert refused.value.code == "closed-hollow"
    apart = bodies.soup(bodies.mesh(bodies.box(20, 20, 30)), bodies.mesh(bodies.box(9, 9, 30).translate((40, 0, 0))))
    with pytest.raises(InputRefused) as split:
        plan(small_job.order, bodies.scan(apart), MemoryStore())
    assert split.value.code == "bodies-apart"
