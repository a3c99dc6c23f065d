"""Stages' results are kept by a hash of their inputs and come back as they were."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import dataclass
from decimal import Decimal

import numpy as np
import pytest

from moldwright.commission.orders import Commission, OriginalOrder, ShopOrder
from moldwright.geometry.mesh import Mesh
from moldwright.store.hashing import hash_of
from moldwright.store.memory import MemoryStore, NoStore
from moldwright.store.packing import pack, unpack


@dataclass(frozen=True)
class Kept:
    name: str
    mesh: Mesh
    spots: tuple[tuple[float, float], ...]
    coats: dict[str, Mesh]
    price: Decimal
    maybe: float | None
    up: str | tuple[float, float, float] | None


def tetrahedron() -> Mesh:
    vertices = np.array([[0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1]], dtype=np.float64)
    return Mesh(vertices, np.array([[0, 2, 1], [0, 1, 3], [1, 2, 3], [0, 3, 2]], dtype=np.int32))


def kept() -> Kept:
    return Kept("é", tetrahedron(), ((1.0, 2.0),), {"detail": tetrahedron()}, Decimal("14.50"), None, (0.0, 0.0, 1.0))


def test_packed_values_come_back() -> None:
    back = unpack(Kept, pack(kept()))
    assert (back.name, back.spots, back.price, back.maybe, back.up) == ("é", ((1.0, 2.0),), Decimal("14.50"), None,
                                                                        (0.0, 0.0, 1.0))  # fmt: skip
    assert back.mesh.faces.dtype == np.int32
    np.testing.assert_array_equal(back.coats["detail"].vertices, tetrahedron().vertices)


@pytest.mark.parametrize("spoiled", [b"", b"PK", pack(kept())[:-40]])
def test_torn_bytes_are_a_value_error(spoiled: bytes) -> None:
    with pytest.raises(ValueError, match="not a kept"):
        unpack(Kept, spoiled)


def test_another_class_is_a_value_error() -> None:
    with pytest.raises(ValueError, match="not a kept"):
        unpack(Commission, pack(kept()))


def test_what_differs_hashes_apart() -> None:
    order = Commission(OriginalOrder("a.stl"))
    warmer = Commission(OriginalOrder("a.stl"), shop=ShopOrder(temperature_c=23.0))
    values = [order, warmer, 1, 1.0, True, "1", None, (1, (2,)), ((1, 2),), b"1", {"a": 1}, {"a": 2}, tetrahedron()]
    assert len({hash_of(value) for value in values}) == len(values)
    assert hash_of(("a", "b")) != hash_of(("ab", ""))


def test_arrays_hash_by_content_shape_and_kind() -> None:
    a = np.arange(6.0)
    assert hash_of(a) == hash_of(a.copy())
    assert hash_of(a) == hash_of(np.arange(12.0)[::2] / 2)
    assert len({hash_of(a), hash_of(a.reshape(2, 3)), hash_of(a.astype(np.float32))}) == 3


def test_what_has_no_stable_form_is_refused() -> None:
    for value in (object(), lambda: 1, np.array([None])):
        with pytest.raises(TypeError):
            hash_of(value)


def test_another_process_hashes_alike() -> None:
    code = "from moldwright.store.hashing import hash_of; print(hash_of(({'b': 1, 'a': 2.5}, frozenset('xyz'), None)))"
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.strip()
    assert said == hash_of(({"a": 2.5, "b": 1}, frozenset("xyz"), None))


def test_the_memory_forgets_the_oldest_and_no_store_keeps_nothing() -> None:
    store = MemoryStore(most=2)
    for key in "abc":
        store.put(key, key)
    assert [store.get(key, str) for key in "abc"] == [None, "b", "c"]
    NoStore().put("a", 1.0)
    assert NoStore().get("a", float) is None
