"""Solids as files: binary STL and 3MF, the same solid always the same bytes."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from xml.sax.saxutils import quoteattr

import numpy as np

from moldwright.errors import ComputationFailed
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.precision import places
from moldwright.geometry.solid import why_not_one_body

_STL_HEAD = b"binary STL, millimeters, z up"
_STL_ROW = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])
_CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
_FIRST_DAY = (1980, 1, 1, 0, 0, 0)
"""The earliest date that a zip can hold: files carry no clock."""


@dataclass(frozen=True, slots=True, eq=False)
class NamedSolid:
    """A solid with the name and the color ("#rrggbb") that a viewer shows, moved so far from its place [mm]."""

    name: str
    mesh: Mesh
    color: str
    way_mm: tuple[float, float, float] = (0.0, 0.0, 0.0)


def write_stl(mesh: Mesh, path: Path) -> None:
    """Writes binary STL; see `stl_bytes`.

    Parameters
    ----------
    mesh : triangles [mm]; path : the file, replaced where it exists.
    """
    path.write_bytes(stl_bytes(mesh))


def stl_bytes(mesh: Mesh) -> bytes:
    """Binary STL: 80 bytes of head, the count, then 50 bytes a triangle (float32, little-endian).

    Parameters
    ----------
    mesh : triangles [mm].

    Source: the STL format as commonly described (from memory).
    """
    rows = np.zeros(len(mesh.faces), dtype=_STL_ROW)
    corners = mesh.corners
    cross = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    rows["normal"] = cross / np.maximum(np.linalg.norm(cross, axis=1, keepdims=True), 1e-30)
    rows["corners"] = corners
    return b"".join((_STL_HEAD.ljust(80), len(rows).to_bytes(4, "little"), rows.tobytes()))


def body_bytes(mesh: Mesh, name: str) -> bytes:
    """A solid as binary STL, read again as those bytes: they must hold one closed body of positive volume.

    Parameters
    ----------
    mesh : closed triangles as `geometry.solid.exportable` gives them [mm].
    name : the file's, for what is told.

    Raises ComputationFailed where they do not. Source: our own.
    """
    raw = stl_bytes(mesh)
    why = why_not_one_body(read_again(raw))
    if why:
        raise ComputationFailed("file-not-one-body", f"{name}: {why}", None, "", "Report this commission.")
    return raw


def read_again(raw: bytes) -> Mesh:
    """A binary STL file as its readers see it: corners in single precision, equal ones joined [mm].

    Parameters
    ----------
    raw : the file's bytes.

    Source: the STL format as commonly described (from memory).
    """
    corners = np.frombuffer(raw, dtype=_STL_ROW, offset=84)["corners"].reshape(-1, 3)
    place = places(np.ascontiguousarray(corners))
    vertices = np.zeros((int(place.max(initial=-1)) + 1, 3))
    vertices[place] = corners
    return Mesh(vertices, place.reshape(-1, 3).astype(np.int32))


def package_bytes(solids: Sequence[NamedSolid], name: str) -> bytes:
    """One 3MF package: unit millimeter, an object and a base material for each solid, and one object that holds them
    all as its components, each moved by its way, which is what is built.

    Parameters
    ----------
    solids : at least one, in the order that viewers list them.
    name : of all of them together.

    Source: 3MF Core Specification 1.3, chapters 2 to 5 (from memory); checked against the consortium's own reader.
    """
    if not solids:
        raise ComputationFailed("no-solids", 0, 1, "solids", "Hand over at least one solid.")
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as package:
        for file, text in (
            ("[Content_Types].xml", _TYPES),
            ("_rels/.rels", _RELATIONS),
            ("3D/3dmodel.model", _model(solids, name)),
        ):
            entry = zipfile.ZipInfo(file, _FIRST_DAY)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.create_system = 3
            package.writestr(entry, text.encode("utf-8"))
    return out.getvalue()


_TYPES = (
    '<?xml version="1.0" encoding="UTF-8"?>\n<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>'
)
_RELATIONS = (
    '<?xml version="1.0" encoding="UTF-8"?>\n'
    '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship '
    'Target="/3D/3dmodel.model" Id="rel0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/>'
    "</Relationships>"
)


def _model(solids: Sequence[NamedSolid], name: str) -> str:
    bases = "".join(f'<base name={quoteattr(s.name)} displaycolor="{s.color.upper()}FF"/>' for s in solids)
    objects = "".join(_object(number, solid) for number, solid in enumerate(solids, start=2))
    parts = "".join(_component(number, solid.way_mm) for number, solid in enumerate(solids, start=2))
    whole = 2 + len(solids)
    return (
        f'<?xml version="1.0" encoding="UTF-8"?>\n<model unit="millimeter" xml:lang="en-US" xmlns="{_CORE}"><resources>'
        f'<basematerials id="1">{bases}</basematerials>{objects}'
        f'<object id="{whole}" name={quoteattr(name)} type="model"><components>{parts}</components></object>'
        f'</resources><build><item objectid="{whole}"/></build></model>'
    )


def _component(number: int, way_mm: tuple[float, float, float]) -> str:
    """An object in its place: rows of the transform, the last one how far it is moved."""
    moved = " ".join(f"{along + 0.0:.5f}" for along in way_mm)
    way = f' transform="1 0 0 0 1 0 0 0 1 {moved}"' if any(way_mm) else ""
    return f'<component objectid="{number}"{way}/>'


def _object(number: int, solid: NamedSolid) -> str:
    """Coordinates to 10 nm: far below what a scan or a printer knows."""
    points, faces = solid.mesh.vertices, solid.mesh.faces
    vertices = ('<vertex x="%.5f" y="%.5f" z="%.5f"/>' * len(points)) % tuple((points + 0.0).reshape(-1).tolist())
    triangles = ('<triangle v1="%d" v2="%d" v3="%d"/>' * len(faces)) % tuple(faces.reshape(-1).tolist())
    return (
        f'<object id="{number}" name={quoteattr(solid.name)} pid="1" pindex="{number - 2}" type="model"><mesh>'
        f"<vertices>{vertices}</vertices><triangles>{triangles}</triangles></mesh></object>"
    )
