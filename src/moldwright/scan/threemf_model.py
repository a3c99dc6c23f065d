"""One model part of a 3MF archive, read as a stream: meshes, components and what is to be built.

Source: 3MF core specification, sections 3 and 4: from memory.
"""

from __future__ import annotations

from array import array
from collections.abc import Iterable
from dataclasses import dataclass, field
from xml.parsers import expat

import numpy as np
from numpy.typing import NDArray

from moldwright.errors import InputRefused
from moldwright.scan.archive import inside
from moldwright.scan.refuse import damaged, not_supported, too_many

CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
PRODUCTION = "http://schemas.microsoft.com/3dmanufacturing/production/2015/06"
UNITS = {"micron": "um", "millimeter": "mm", "centimeter": "cm", "inch": "in", "foot": "ft", "meter": "m"}
DEEPEST = 64


@dataclass(frozen=True, slots=True, eq=False)
class Use:
    """A component or a build item: which object, in which part ("" for the same), and where it stands."""

    key: str
    path: str
    matrix: NDArray[np.float64]


@dataclass(slots=True)
class Thing:
    """An object resource: a mesh or an assembly of others."""

    kind: str = "model"
    points: array[float] = field(default_factory=lambda: array("d"))
    corners: array[int] = field(default_factory=lambda: array("q"))
    uses: list[Use] = field(default_factory=list)


@dataclass(slots=True)
class Model:
    unit: str = "mm"
    things: dict[str, Thing] = field(default_factory=dict)
    build: list[Use] = field(default_factory=list)


class ModelReader:
    """Listens to the parser; elements outside the core namespace are passed over."""

    def __init__(self, limit: int) -> None:
        self.model = Model()
        self._limit = limit
        self._triangles = 0
        self._depth = 0
        self._root = ""
        self._thing: Thing | None = None
        self._handlers = {
            "model": self._model,
            "object": self._object,
            "vertex": self._vertex,
            "triangle": self._triangle,
            "component": self._component,
            "item": self._item,
        }

    def read(self, blocks: Iterable[bytes]) -> Model:
        """The model of one part of an archive.

        Parameters
        ----------
        blocks : the part's bytes in order.
        """
        parser = expat.ParserCreate(namespace_separator=" ")
        parser.StartElementHandler = self._start
        parser.EndElementHandler = self._end
        parser.StartDoctypeDeclHandler = _no_doctype
        parser.EntityDeclHandler = _no_doctype
        try:
            for block in blocks:
                parser.Parse(block, False)
            parser.Parse(b"", True)
        except (expat.ExpatError, KeyError, ValueError, OverflowError) as error:
            raise damaged(f"a model that breaks the rules of 3MF ({str(error)[:80]})") from None
        if self._root != "model":
            raise damaged("an XML part that is no 3MF model", "a 3MF model")
        return self.model

    def _start(self, name: str, given: dict[str, str]) -> None:
        self._depth += 1
        if self._depth > DEEPEST:
            raise damaged("elements nested too deep", f"{DEEPEST} levels")
        space, _, local = name.rpartition(" ")
        if self._depth == 1:
            self._root = local
        handler = self._handlers.get(local)
        if handler is not None and space in (CORE, ""):
            handler(given)

    def _end(self, name: str) -> None:
        self._depth -= 1
        if name.endswith("object") and name.rpartition(" ")[2] == "object":
            self._thing = None

    def _model(self, given: dict[str, str]) -> None:
        unit = given.get("unit", "millimeter")
        if unit not in UNITS:
            raise not_supported(f"the unit {unit[:40]}", "Export 3MF in one of: " + ", ".join(UNITS) + ".")
        self.model.unit = UNITS[unit]

    def _object(self, given: dict[str, str]) -> None:
        if given["id"] in self.model.things:
            raise damaged(f"two objects with the id {given['id'][:20]}")
        self._thing = self.model.things[given["id"]] = Thing(given.get("type", "model"))

    def _vertex(self, given: dict[str, str]) -> None:
        if self._thing is not None:
            self._thing.points.extend((float(given["x"]), float(given["y"]), float(given["z"])))

    def _triangle(self, given: dict[str, str]) -> None:
        if self._thing is None:
            return
        self._triangles += 1
        if self._triangles > self._limit:
            raise too_many(self._triangles, self._limit)
        self._thing.corners.extend((int(given["v1"]), int(given["v2"]), int(given["v3"])))

    def _component(self, given: dict[str, str]) -> None:
        if self._thing is not None:
            self._thing.uses.append(_use(given))

    def _item(self, given: dict[str, str]) -> None:
        self.model.build.append(_use(given))


def _use(given: dict[str, str]) -> Use:
    path = given.get(PRODUCTION + " path", "")
    return Use(given["objectid"], inside(path) if path else "", _matrix(given.get("transform")))


def _matrix(text: str | None) -> NDArray[np.float64]:
    """`m00 m01 m02 m10 ... m32` acts on rows; here as a (4, 4) that acts on columns."""
    matrix = np.eye(4)
    if text is not None:
        numbers = [float(word) for word in text.split()]
        if len(numbers) != 12:
            raise ValueError(f"a transform of {len(numbers)} numbers")
        matrix[:3, :] = np.array(numbers).reshape(4, 3).T
    return matrix


def _no_doctype(*_: object) -> None:
    raise InputRefused(
        "xml-declarations", "a document type or entity declaration", "none", "", "Export the 3MF file again."
    )
