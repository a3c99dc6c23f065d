"""The elements of a PLY file as columns."""

from __future__ import annotations

import struct
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from moldwright.scan.ply_header import Element, Header, Property
from moldwright.scan.refuse import damaged, truncated
from moldwright.scan.text import Rows, plain_lines, rows, whole

CODES = {"i1": "b", "u1": "B", "i2": "h", "u2": "H", "i4": "i", "u4": "I", "f4": "f", "f8": "d"}
Lists = tuple[NDArray[np.float64 | np.int64], NDArray[np.int64]]


@dataclass(frozen=True, slots=True, eq=False)
class Columns:
    """One element: single numbers by name, and lists by name as (all values, length of each)."""

    columns: dict[str, NDArray[np.generic]]
    lists: dict[str, Lists]


def binary_tables(data: bytes, header: Header) -> tuple[dict[str, Columns], int]:
    """All elements of a binary body, and how many bytes were left over.

    Parameters
    ----------
    data : the body's bytes.
    header : what it announces.
    """
    tables, at = {}, 0
    for element in header.elements:
        tables[element.name], at = _binary(data, at, element, header.order)
    return tables, len(data) - at


def _binary(data: bytes, at: int, element: Element, order: str) -> tuple[Columns, int]:
    least = sum(int((p.count or p.kind)[1]) for p in element.properties)
    if at + least * element.count > len(data):
        raise truncated(len(data) - at, least * element.count, f"bytes of {element.name}")
    if element.count == 0 or least == 0:
        return Columns({}, {}), at
    same = _same_lengths(data, at, element, order)
    return same if same is not None else _walk(data, at, element, order)


def _same_lengths(data: bytes, at: int, element: Element, order: str) -> tuple[Columns, int] | None:
    """Read at once, if every row's lists are as long as the first row's."""
    lengths = _first_lengths(data, at, element, order)
    record = np.dtype([f for k, p in enumerate(element.properties) for f in _fields(k, p, lengths.get(k, 1), order)])
    size = record.itemsize * element.count
    if size > len(data) - at:
        return None
    found = np.frombuffer(data, record, element.count, at)
    if any((found[f"count{k}"] != length).any() for k, length in lengths.items()):
        return None
    lists: dict[str, Lists] = {
        element.properties[k].name: (found[f"value{k}"].astype(np.int64).ravel(), np.full(element.count, n, np.int64))
        for k, n in lengths.items()
        if element.properties[k].kind[0] != "f"
    }
    single = {p.name: found[f"value{k}"] for k, p in enumerate(element.properties) if not p.count}
    return Columns(single, lists), at + size


def _first_lengths(data: bytes, at: int, element: Element, order: str) -> dict[int, int]:
    lengths = {}
    for k, prop in enumerate(element.properties):
        if prop.count:
            lengths[k] = int(_unpack(data, at, order, prop.count)[0])
            if lengths[k] < 0:
                raise damaged(f"a list of {lengths[k]} values")
            at += int(prop.count[1]) + lengths[k] * int(prop.kind[1])
        else:
            at += int(prop.kind[1])
    return lengths


def _fields(k: int, prop: Property, length: int, order: str) -> list[tuple[str, str, tuple[int, ...]]]:
    if prop.count:
        return [(f"count{k}", order + prop.count, ()), (f"value{k}", order + prop.kind, (min(length, 1 << 24),))]
    return [(f"value{k}", order + prop.kind, ())]


def _unpack(data: bytes, at: int, order: str, kind: str, count: int = 1) -> tuple[float, ...]:
    if at + count * int(kind[1]) > len(data):
        raise truncated(len(data), at + count * int(kind[1]), "bytes")
    return struct.unpack_from(f"{order}{count}{CODES[kind]}", data, at)


def _walk(data: bytes, at: int, element: Element, order: str) -> tuple[Columns, int]:
    """Row by row, where lists differ in length."""
    columns: dict[str, list[float]] = {p.name: [] for p in element.properties if not p.count}
    lists: dict[str, tuple[list[float], list[int]]] = {p.name: ([], []) for p in element.properties if p.count}
    for _ in range(element.count):
        for prop in element.properties:
            if not prop.count:
                columns[prop.name].append(_unpack(data, at, order, prop.kind)[0])
                at += int(prop.kind[1])
                continue
            length = int(_unpack(data, at, order, prop.count)[0])
            if length < 0:
                raise damaged(f"a list of {length} values")
            at += int(prop.count[1])
            values = _unpack(data, at, order, prop.kind, length)
            lists[prop.name][0].extend(values if prop.kind[0] != "f" else ())
            lists[prop.name][1].append(length)
            at += length * int(prop.kind[1])
    return _table(columns, lists), at


def _table(columns: dict[str, list[float]], lists: dict[str, tuple[list[float], list[int]]]) -> Columns:
    return Columns(
        {name: np.array(values, np.float64) for name, values in columns.items()},
        {name: (np.array(v, np.int64), np.array(n, np.int64)) for name, (v, n) in lists.items()},
    )


def text_tables(data: bytes, header: Header) -> tuple[dict[str, Columns], int]:
    """All elements of a text body, one row a line.

    Parameters
    ----------
    data : the body's bytes.
    header : what it announces.
    """
    left = rows(plain_lines(data, b""))
    tables = {}
    for element in header.elements:
        if not element.properties:
            tables[element.name] = Columns({}, {})
            continue
        if len(left.counts) < element.count:
            raise truncated(len(left.counts), element.count, f"lines of {element.name}")
        mine, left = left.cut(element.count)
        tables[element.name] = _text(mine, element)
    return tables, len(left.counts)


def _text(mine: Rows, element: Element) -> Columns:
    """Columns of one element; a list's length moves what stands after it on the line."""
    columns: dict[str, NDArray[np.generic]] = {}
    lists: dict[str, Lists] = {}
    place = mine.starts.copy()
    ends = mine.starts + mine.counts
    for prop in element.properties:
        if (place >= ends).any():
            raise damaged(f"a line of {element.name} without {prop.name}")
        first = mine.values[place]
        place = place + 1
        if not prop.count:
            columns[prop.name] = first
            continue
        length = whole(first)
        if (length < 0).any() or (place + length > ends).any():
            raise damaged(f"a list of {element.name} longer than its line")
        lists[prop.name] = (_gather(mine.values, place, length), length)
        place = place + length
    return Columns(columns, lists)


def _gather(
    values: NDArray[np.float64 | np.int64], place: NDArray[np.int64], length: NDArray[np.int64]
) -> NDArray[np.float64 | np.int64]:
    offset = np.repeat(place - (np.cumsum(length) - length), length)
    return np.asarray(values[np.arange(len(offset)) + offset])
