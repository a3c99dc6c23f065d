"""The header of a PLY file."""

from __future__ import annotations

import re
from dataclasses import dataclass

from moldwright.scan.refuse import damaged, truncated

LONGEST = 1 << 20
TYPES = {
    "char": "i1",
    "int8": "i1",
    "uchar": "u1",
    "uint8": "u1",
    "short": "i2",
    "int16": "i2",
    "ushort": "u2",
    "uint16": "u2",
    "int": "i4",
    "int32": "i4",
    "uint": "u4",
    "uint32": "u4",
    "float": "f4",
    "float32": "f4",
    "double": "f8",
    "float64": "f8",
}
ORDERS = {"ascii": "", "binary_little_endian": "<", "binary_big_endian": ">"}


@dataclass(frozen=True, slots=True)
class Property:
    """One property; `count` is the type of a list's length, "" for a single number."""

    name: str
    kind: str
    count: str = ""


@dataclass(frozen=True, slots=True)
class Element:
    name: str
    count: int
    properties: tuple[Property, ...]


@dataclass(frozen=True, slots=True)
class Header:
    """`order` is "<" or ">", "" for text."""

    order: str
    elements: tuple[Element, ...]


def read_header(data: bytes) -> tuple[Header, int]:
    """The header and where the body begins.

    Parameters
    ----------
    data : the file's bytes.
    """
    end = re.search(rb"(?:^|[\r\n])end_header[ \t]*(\r\n|\n|\r)", data[:LONGEST])
    if not end:
        raise truncated(len(data), len(data) + 1, "bytes") if len(data) < LONGEST else damaged("no end_header")
    try:
        lines = data[: end.start()].decode("latin-1").splitlines()
        return _header([line.split() for line in lines[1:]]), end.end()
    except (ValueError, KeyError, IndexError):
        raise damaged("a header line that is not PLY") from None


def _header(lines: list[list[str]]) -> Header:
    order, elements = None, []
    for words in lines:
        if not words or words[0] in ("comment", "obj_info"):
            continue
        if words[0] == "format":
            order = ORDERS[words[1]]
        elif words[0] == "element":
            elements.append(Element(words[1], _count(words[2]), ()))
        elif words[0] == "property":
            last = elements[-1]
            elements[-1] = Element(last.name, last.count, (*last.properties, _property(words)))
        else:
            raise ValueError
    if order is None or len({element.name for element in elements}) != len(elements):
        raise ValueError
    return Header(order, tuple(elements))


def _count(word: str) -> int:
    count = int(word)
    if count < 0:
        raise ValueError
    return count


def _property(words: list[str]) -> Property:
    if words[1] == "list":
        return Property(words[4], TYPES[words[3]], TYPES[words[2]])
    return Property(words[2], TYPES[words[1]])
