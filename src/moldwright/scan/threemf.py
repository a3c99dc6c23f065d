"""3MF: everything that is to be built, its unit honored, components and transforms laid out."""

from __future__ import annotations

from xml.parsers import expat

import numpy as np
from numpy.typing import NDArray

from moldwright.errors import InputRefused
from moldwright.scan.archive import Archive, inside
from moldwright.scan.instances import Instance, Shape, assemble
from moldwright.scan.limits import Limits
from moldwright.scan.raw import Raw
from moldwright.scan.refuse import damaged, external, no_triangles, too_many
from moldwright.scan.repairs import Repair, RepairCode
from moldwright.scan.threemf_model import DEEPEST, Model, ModelReader, Thing, Use

RELATIONS = "_rels/.rels"
MODEL_TYPE = "/3dmodel"
USUAL = "3D/3dmodel.model"
COPIES = 100_000
Key = tuple[str, str]


def read_3mf(data: bytes, limits: Limits) -> Raw:
    """The triangles of all build items of a 3MF archive.

    Parameters
    ----------
    data : the file's bytes.
    limits : what reading may take in.
    """
    archive = Archive(data, limits)
    root = _root(archive)
    if root is None:
        raise InputRefused("mislabelled", "a zip archive without a 3D model", "3mf", "", "Give the scan itself.")
    return _Builder(archive, inside(root), limits).raw()


def _root(archive: Archive) -> str | None:
    """The model part that the package names, or the usual one."""
    if RELATIONS not in archive:
        return USUAL if USUAL in archive else None
    found: list[str] = []

    def start(name: str, given: dict[str, str]) -> None:
        if name.endswith("Relationship") and given.get("Type", "").endswith(MODEL_TYPE):
            if given.get("TargetMode", "").lower() == "external":
                raise external(given.get("Target", "")[:60])
            found.append(given.get("Target", ""))

    _parse(archive, start)
    return found[0] if found else (USUAL if USUAL in archive else None)


def _parse(archive: Archive, start: object) -> None:
    def refuse(*_: object) -> None:
        raise InputRefused("xml-declarations", "a document type declaration", "none", "", "Export the 3MF file again.")

    parser = expat.ParserCreate()
    parser.StartElementHandler = start  # type: ignore[assignment]
    parser.StartDoctypeDeclHandler = refuse
    try:
        for block in archive.blocks(RELATIONS):
            parser.Parse(block, False)
        parser.Parse(b"", True)
    except expat.ExpatError:
        raise damaged("a 3MF archive whose relations are no XML") from None


class _Builder:
    """Counts every copy before it lays any out: components of components multiply."""

    def __init__(self, archive: Archive, root: str, limits: Limits) -> None:
        self._archive, self._limits, self._root = archive, limits, root
        self._models: dict[str, Model] = {}
        self._counts: dict[Key, tuple[int, int]] = {}
        self._left = limits.triangles

    def raw(self) -> Raw:
        build = [use for use in self._model(self._root).build if self._thing(self._key(use, self._root)).kind in _KINDS]
        skipped = len(self._model(self._root).build) - len(build)
        triangles = copies = 0
        for use in build:
            counted = self._count(self._key(use, self._root), ())
            triangles, copies = triangles + counted[0], copies + counted[1]
        if triangles > self._limits.triangles:
            raise too_many(triangles, self._limits.triangles)
        if copies > COPIES:
            raise InputRefused("too-many-copies", copies, COPIES, "copies", "Export the scan as one mesh.")
        if triangles == 0:
            raise no_triangles("a 3MF archive that builds nothing" if not build else "no triangles in what is built")
        keys: dict[Key, int] = {}
        instances: list[Instance] = []
        for use in build:
            self._lay(self._key(use, self._root), use.matrix, keys, instances)
        shapes = {number: _shape(self._thing(key)) for key, number in keys.items()}
        repairs = (Repair(RepairCode.SUPPORTS_LEFT_OUT, skipped, "items"),) if skipped else ()
        unit = self._model(self._root).unit
        return assemble(shapes, instances, self._limits, unit, (0.0, 0.0, 1.0), repairs)

    def _model(self, path: str) -> Model:
        key = path.lower()
        if key not in self._models:
            self._models[key] = ModelReader(self._left).read(self._archive.blocks(path))
            self._left -= sum(len(thing.corners) // 3 for thing in self._models[key].things.values())
        return self._models[key]

    def _key(self, use: Use, here: str) -> Key:
        return (use.path or here).lower(), use.key

    def _thing(self, key: Key) -> Thing:
        found = self._model(key[0]).things.get(key[1])
        if found is None:
            raise damaged(f"object {key[1][:20]} is used, but not there")
        return found

    def _count(self, key: Key, above: tuple[Key, ...]) -> tuple[int, int]:
        """Triangles and copies below one object, each object counted once and multiplied."""
        if key in above or len(above) > DEEPEST:
            raise damaged("an object that is a component of itself", "a tree of components")
        if key not in self._counts:
            thing = self._thing(key)
            triangles, copies = len(thing.corners) // 3, 1
            for use in thing.uses:
                below = self._count(self._key(use, key[0]), (*above, key))
                triangles, copies = triangles + below[0], copies + below[1]
            self._counts[key] = triangles, copies
        return self._counts[key]

    def _lay(self, key: Key, matrix: NDArray[np.float64], keys: dict[Key, int], out: list[Instance]) -> None:
        thing = self._thing(key)
        if len(thing.corners):
            out.append(Instance(keys.setdefault(key, len(keys)), matrix))
        for use in thing.uses:
            self._lay(self._key(use, key[0]), matrix @ use.matrix, keys, out)


_KINDS = ("model", "surface")


def _shape(thing: Thing) -> Shape:
    points = np.frombuffer(thing.points, np.float64).reshape(-1, 3) if len(thing.points) else np.zeros((0, 3))
    return points, np.frombuffer(thing.corners, np.int64).reshape(-1, 3)
