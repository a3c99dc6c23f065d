"""A stage sees only what it is handed, and all that it is handed is in its key."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

import pytest
from counting_store import CountingStore

from moldwright.job import solids_chain
from moldwright.making.files import plan as plan_files
from moldwright.progress import Progress, silent
from moldwright.store.memory import MemoryStore, NoStore
from moldwright.store.stage import Kept, Stage

FACTOR = 2.0
TABLE = {"factor": 2.0}
MADE: list[float] = []


@dataclass(frozen=True)
class Given:
    value: float
    told: str = field(default="", compare=False)


@dataclass
class Changing:
    value: float


def double(given: Given) -> float:
    return FACTOR * given.value


def added(one: float, other: float, progress: Progress) -> float:
    progress("adding", 0.5)
    return one + other


def with_default(value: float, factor: float = 2.0) -> float:
    return value * factor


def with_table(value: float) -> float:
    return value * TABLE["factor"]


def made_here() -> Callable[[float], float]:
    def inner(value: float) -> float:
        return value

    return inner


inside = made_here()


def stage(name: str, **more: Any) -> Stage[Any]:
    return Stage(f"{__name__}:{name}", **more)


def test_a_result_is_made_once_for_each_input() -> None:
    store = CountingStore()
    values = [stage("double").kept(store, silent, Given(v)).value for v in (1.0, 2.0, 1.0, 2.0)]
    assert values == [2.0, 4.0, 2.0, 4.0]
    assert store.made == ["double", "double"]
    assert stage("double").kept(NoStore(), silent, Given(1.0)).value == 2.0


def test_a_field_that_does_not_count_in_comparisons_is_no_part_of_the_key() -> None:
    keys = {stage("double").key(NoStore(), given) for given in (Given(1.0, "a"), Given(1.0, "b"), Given(2.0, "a"))}
    assert len(keys) == 2


def test_a_kept_result_is_handed_on_by_its_key_and_looked_at_only_where_it_must_be() -> None:
    store, looked = CountingStore(), list[str]()
    first = Kept("first", lambda: looked.append("first") or 3.0)
    asked = stage("added").kept(store, silent, first, 4.0)
    assert (looked, store.made) == ([], [])
    assert asked.value == 7.0
    again = stage("added").kept(store, silent, Kept("first", lambda: pytest.fail("unpacked")), 4.0)
    assert again.value == 7.0
    assert (looked, store.made) == (["first"], ["added"])
    assert again.key != stage("added").key(store, Kept("other", float), 4.0)
    assert again.key != stage("added").key(store, "first", 4.0), "a text is no result of that key"


def test_progress_is_told_and_no_part_of_the_key() -> None:
    told: list[tuple[str, float]] = []
    stage("added", told="sum").kept(NoStore(), lambda name, share: told.append((name, share)), 1.0, 2.0).value  # noqa: B018
    assert told == [("sum", 0.0), ("adding", 0.5), ("sum", 1.0)]


def test_the_code_counts_by_its_mark() -> None:
    class Marked(MemoryStore):
        def mark(self, module: str) -> str:
            return "changed" if module == __name__ else ""

    assert stage("double").key(Marked(), Given(1.0)) != stage("double").key(MemoryStore(), Given(1.0))


@pytest.mark.parametrize("name", ["with_default", "with_table", "inside", "FACTOR", "Given"])
def test_what_could_see_more_than_it_is_handed_is_no_stage(name: str) -> None:
    with pytest.raises(TypeError, match=name):
        stage(name).kept(NoStore(), silent, 1.0).value  # noqa: B018


@pytest.mark.parametrize("inputs", [(), (1.0,), (1.0, 2.0, 3.0)])
def test_a_forgotten_input_is_an_error(inputs: tuple[float, ...]) -> None:
    with pytest.raises(TypeError, match="argument"):
        stage("added").kept(NoStore(), silent, *inputs).value  # noqa: B018


@pytest.mark.parametrize("value", [Changing(1.0), object(), lambda: 1.0])
def test_what_can_change_is_no_input(value: Any) -> None:
    with pytest.raises(TypeError):
        stage("double").key(NoStore(), value)


def test_another_class_than_the_one_said_is_refused() -> None:
    with pytest.raises(TypeError, match="double"):
        stage("double", kind=Given).kept(NoStore(), silent, Given(1.0)).value  # noqa: B018


STAGES = [value for module in (solids_chain, plan_files) for value in vars(module).values() if isinstance(value, Stage)]


@pytest.mark.parametrize("declared", STAGES, ids=lambda declared: declared.name)
def test_every_stage_of_the_house_is_one(declared: Stage[Any]) -> None:
    assert callable(declared.function)
    assert isinstance(declared.kind, type)
