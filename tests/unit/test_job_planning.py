"""Rules of the whole job on a small figure: what is recalled, what is computed again, what is refused."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from typing import Any, TypeVar

import geometry_bodies as bodies
import pytest
from conftest import Job
from counting_store import CountingStore
from job_meshes import meshes_of

from moldwright.commission.orders import CastOrder, Commission, EditionOrder, MoldOrder, ShopOrder
from moldwright.errors import InputRefused, NoSafePlan
from moldwright.geometry.seam_kind import Seam
from moldwright.job.planning import Planned, make_plan
from moldwright.materials import library
from moldwright.plan.json_text import plan_to_json
from moldwright.progress import Progress, silent
from moldwright.scan.scan import Scan
from moldwright.store.memory import MemoryStore
from moldwright.store.stage import Kept, Stage
from moldwright.ways import Change

T = TypeVar("T")
GEOMETRY = {
    "settle",
    "peeled_off",
    "mounted_on",
    "hollows_in",
    "gaps_of",
    "skin_in",
    "coated_with",
    "splits_of",
    "keyed_for",
    "shell_of",
    "glove_of",
}


class Recall(CountingStore):
    """Reads what another store keeps, keeps new results to itself, and knows what it was asked and given."""

    def __init__(self, other: MemoryStore) -> None:
        super().__init__()
        self._other = other
        self.asked: list[str] = []

    def get(self, key: str, kind: type[T]) -> T | None:
        self.asked.append(key.partition("-")[0])
        own = super().get(key, kind)
        return own if own is not None else self._other.get(key, kind)


def plan(order: Commission, scan: Scan, store: MemoryStore) -> Planned:
    return make_plan(order, scan, library(), store, silent)


class Stopped(Exception):
    """The first stage that is computed ends the plan."""


@pytest.fixture
def computed(monkeypatch: pytest.MonkeyPatch) -> Callable[[Commission, Scan, MemoryStore], str]:
    """The first stage that an order computes, "" where all is recalled; nothing is really computed."""

    def stop(stage: Stage[Any], progress: Progress, inputs: tuple[Any, ...]) -> Any:
        for value in inputs:
            assert not isinstance(value, Kept) or value.value is not None
        raise Stopped(stage.name)

    monkeypatch.setattr(Stage, "_made", stop)

    def first(order: Commission, scan: Scan, store: MemoryStore) -> str:
        try:
            plan(order, scan, store)
        except Stopped as stage:
            return str(stage)
        return ""

    return first


def test_the_same_order_twice_is_the_same_text(small_job: Job) -> None:
    store = Recall(MemoryStore())
    again = plan(small_job.order, small_job.scan, store)
    every = [*GEOMETRY, "tried_with", "measure", "peel_shape", "stand_of", "strained_off", "formed_about"]
    assert sorted(store.made) == sorted(every), "nothing was recalled"
    assert plan_to_json(again.plan) == plan_to_json(small_job.planned.plan)
    for name, mesh in meshes_of(small_job.planned).items():
        assert mesh.vertices.tobytes() == meshes_of(again)[name].vertices.tobytes()
        assert mesh.faces.tobytes() == meshes_of(again)[name].faces.tobytes()


CHEAP: dict[str, Callable[[Commission], Commission]] = {
    "temperature": lambda o: replace(o, shop=replace(o.shop, temperature_c=25.0)),
    "price": lambda o: replace(o, prices=(("talc", Decimal("4.50")),)),
    "edition": lambda o: replace(o, edition=EditionOrder(50)),
    "paper": lambda o: replace(o, shop=replace(o.shop, paper="letter", units="us")),
    "cup": lambda o: replace(o, shop=ShopOrder(cup_ml=250.0, scale_g=0.05)),
    "rubber": lambda o: replace(o, mold=replace(o.mold, rubber="addition-cure-a20-slow")),
    "resin": lambda o: replace(o, cast=CastOrder(resin="urethane-standard", powder="marble")),
    "material": lambda o: replace(o, original=replace(o.original, material="plastic", name="heron")),
}


@pytest.mark.parametrize("what", CHEAP)
def test_what_shapes_nothing_computes_no_geometry(small_job: Job, what: str) -> None:
    store = Recall(small_job.store)
    changed = plan(CHEAP[what](small_job.order), small_job.scan, store)
    assert not GEOMETRY & set(store.made)
    kept = ["hollows_in", "tried_with", "measure", "peel_shape", "stand_of", "strained_off", "formed_about"]
    asked = store.asked[: len(kept)] if what == "rubber" else store.asked
    assert what == "paper" or asked == kept, "no solid is even unpacked, but for what blocks of another rubber measure"
    first = small_job.planned
    assert all(meshes_of(changed)[name] is mesh for name, mesh in meshes_of(first).items())
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
    "thickness": (lambda o: replace(o, mold=replace(o.mold, thickness_mm=5.0)), "coated_with"),
    "flange": (lambda o: replace(o, mold=replace(o.mold, flange_mm=30.0)), "coated_with"),
    "shell": (lambda o: replace(o, mold=replace(o.mold, shell="fiber-gypsum")), "tried_with"),
    "seam": (lambda o: replace(o, mold=replace(o.mold, seam=Seam.LAP)), "tried_with"),
}


@pytest.mark.parametrize("what", SHAPING)
def test_what_shapes_is_computed_from_its_first_stage(
    small_job: Job, computed: Callable[[Commission, Scan, MemoryStore], str], what: str
) -> None:
    change, stage = SHAPING[what]
    assert computed(small_job.order, small_job.scan, Recall(small_job.store)) == ""
    assert computed(change(small_job.order), small_job.scan, Recall(small_job.store)) == stage


def test_the_same_triangles_in_another_unit_of_the_format_are_another_piece(
    small_job: Job, computed: Callable[[Commission, Scan, MemoryStore], str]
) -> None:
    """A file that says inches after one that said millimeters: no stage of the smaller one is recalled."""
    inches = replace(small_job.scan, unit="in")
    assert computed(small_job.order, inches, Recall(small_job.store)) == "settle"


@pytest.mark.parametrize("pieces", [1, 3, 4])
def test_another_number_of_pieces_is_keyed_and_built_anew(
    small_job: Job, computed: Callable[[Commission, Scan, MemoryStore], str], pieces: int
) -> None:
    """The splits are searched once for all of them."""
    order = replace(small_job.order, mold=replace(small_job.order.mold, pieces=pieces))
    assert computed(order, small_job.scan, Recall(small_job.store)) == "keyed_for"


def test_a_lap_of_a_printed_shell_is_refused_before_any_geometry(
    small_job: Job, computed: Callable[[Commission, Scan, MemoryStore], str]
) -> None:
    order = replace(small_job.order, mold=MoldOrder(shell="printed", seam=Seam.LAP))
    with pytest.raises(InputRefused) as refused:
        computed(order, small_job.scan, MemoryStore())
    assert (refused.value.code, refused.value.limit) == ("lap-of-print", Seam.WALL)
    assert refused.value.way == Change("mold.seam", Seam.WALL.value)
    assert computed(replace(order, mold=MoldOrder(shell="printed")), small_job.scan, MemoryStore()) == "settle"


def test_the_plan_is_of_one_kind_of_seam_and_proven_in_its_order(small_job: Job) -> None:
    """Left out it is a wall, which the plan says; both have one closed body a piece, the lap no flange."""
    order = replace(small_job.order, mold=replace(small_job.order.mold, seam=Seam.LAP))
    lapped = plan(order, small_job.scan, Recall(small_job.store))
    kept, wall, lap = meshes_of(lapped), small_job.planned.plan, lapped.plan
    said = [{row.key: row.value for row in each.assumed} for each in (wall, lap)]
    assert [each.shell.seam for each in (wall, lap)] == [Seam.WALL, Seam.LAP]
    assert [each.shell.removal.in_order for each in (wall, lap)] == [False, True]
    assert [(each.shell.seam_flange_mm, each.shell.lap_mm) for each in (wall, lap)] == [(25.0, 0.0), (0.0, 40.0)]
    assert said[0]["mold.seam"] == Seam.WALL
    assert ("shell.lap-width" in said[0], "shell.lap-width" in said[1]) == (False, True)
    assert lap.shell.removal.checked
    assert all(kept[piece.file].why_invalid() == "" for piece in lap.shell.pieces)
    assert lap.parting.clay_g.high == 0.0 < wall.parting.clay_g.likely
    assert lap.shell.pieces[1].volume_ml < wall.shell.pieces[1].volume_ml


def test_a_closed_hollow_and_bodies_apart_end_the_plan(small_job: Job) -> None:
    hollow = bodies.mesh(bodies.cone(20, 12, 50, 32) - bodies.ball(9, 32, (0, 0, 25)))
    with pytest.raises(NoSafePlan) as refused:
        plan(small_job.order, bodies.scan(hollow), MemoryStore())
    assert refused.value.code == "closed-hollow"
    apart = bodies.soup(bodies.mesh(bodies.box(20, 20, 30)), bodies.mesh(bodies.box(9, 9, 30).translate((40, 0, 0))))
    with pytest.raises(InputRefused) as split:
        plan(small_job.order, bodies.scan(apart), MemoryStore())
    assert split.value.code == "bodies-apart"
