"""Small scans written byte by byte for the tests of the readers."""

from __future__ import annotations

import io
import json
import struct
import zipfile

import numpy as np
from numpy.typing import NDArray

BOX = np.array([(x, y, z) for z in (0, 1) for y in (0, 1) for x in (0, 1)], float)
Shape = tuple[NDArray[np.float64], NDArray[np.int64]]
QUADS = ((0, 2, 3, 1), (4, 5, 7, 6), (0, 1, 5, 4), (2, 6, 7, 3), (0, 4, 6, 2), (1, 3, 7, 5))
CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
TYPE = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"


def box(x: float = 20.0, y: float = 30.0, z: float = 40.0) -> Shape:
    """A box on the origin: vertices and 12 triangles, wound outward."""
    faces = [(q[0], q[k], q[k + 1]) for q in QUADS for k in (1, 2)]
    return BOX * (x, y, z), np.array(faces)


def frustum(low: float, high: float, height: float, sides: int = 48, bottom: bool = True) -> Shape:
    """A frustum of a cone along z, with or without its bottom."""
    turn = np.linspace(0, 2 * np.pi, sides, endpoint=False)
    ring = np.stack([np.cos(turn), np.sin(turn), 0 * turn], axis=1)
    points = np.concatenate([ring * low, ring * high + (0, 0, height), [(0, 0, 0), (0, 0, height)]])
    k = np.arange(sides)
    n = (k + 1) % sides
    side = [np.stack([k, n, n + sides], 1), np.stack([k, n + sides, k + sides], 1)]
    top = np.stack([k + sides, n + sides, np.full(sides, 2 * sides + 1)], 1)
    foot = np.stack([n, k, np.full(sides, 2 * sides)], 1)
    return points, np.concatenate([*side, top, *([foot] if bottom else [])])


def sphere(radius: float, sides: int) -> Shape:
    """A sphere of `sides` meridians and half as many rings, on the origin, wound outward."""
    rings = sides // 2
    polar, turn = np.pi * np.arange(1, rings) / rings, 2 * np.pi * np.arange(sides) / sides
    ring = np.stack([np.outer(np.sin(polar), np.cos(turn)), np.outer(np.sin(polar), np.sin(turn))], axis=-1)
    height = np.broadcast_to(np.cos(polar)[:, None, None], (rings - 1, sides, 1))
    points = np.concatenate([np.concatenate([ring, height], axis=-1).reshape(-1, 3), [(0, 0, 1), (0, 0, -1)]])
    k, n = np.arange(sides), (np.arange(sides) + 1) % sides
    faces = [np.stack([np.full(sides, len(points) - 2), k, n], 1)]
    for row in range(rings - 2):
        a, b = k + row * sides, n + row * sides
        faces += [np.stack([a, a + sides, b], 1), np.stack([b, a + sides, b + sides], 1)]
    last = (rings - 2) * sides
    faces.append(np.stack([n + last, k + last, np.full(sides, len(points) - 1)], 1))
    return points * radius, np.concatenate(faces)


def together(*shapes: Shape) -> Shape:
    """Several shapes in one list."""
    starts = np.cumsum([0, *(len(points) for points, _ in shapes)])
    faces = [faces + start for (_, faces), start in zip(shapes, starts, strict=False)]
    return np.concatenate([points for points, _ in shapes]), np.concatenate(faces)


def patches(points: NDArray[np.float64], faces: NDArray[np.int64], each: int, gap: float) -> Shape:
    """The surface in patches of `each` triangles with points of their own; each is drawn in by half a gap, or grown."""
    found = []
    for start in range(0, len(faces), each):
        used, mine = np.unique(faces[start : start + each], return_inverse=True)
        corners = points[used]
        away = corners - corners.mean(axis=0)
        length = np.maximum(np.linalg.norm(away, axis=1, keepdims=True), 1e-9)
        found.append((corners - away / length * np.minimum(gap / 2, length / 3), mine.reshape(-1, 3)))
    return together(*found)


def stl(points: NDArray[np.float64], faces: NDArray[np.int64], header: bytes = b"") -> bytes:
    record = np.zeros(len(faces), [("n", "<f4", 3), ("v", "<f4", (3, 3)), ("a", "<u2")])
    record["v"] = points[faces]
    return header.ljust(80, b"\0") + struct.pack("<I", len(faces)) + record.tobytes()


def ascii_stl(points: NDArray[np.float64], faces: NDArray[np.int64], gap: str = "\n") -> bytes:
    text = ["solid piece"]
    for face in faces:
        corners = gap.join(f"vertex {x:.9g} {y:.9g} {z:.9g}" for x, y, z in points[face])
        text.append(f"facet normal 0 0 0{gap}outer loop{gap}{corners}{gap}endloop{gap}endfacet")
    return ("\n".join([*text, "endsolid piece"]) + "\n").encode()


def off(points: NDArray[np.float64], faces: object, word: str = "OFF") -> bytes:
    rows = [f"{x:.17g} {y:.17g} {z:.17g}" for x, y, z in points]
    rows += [" ".join(map(str, (len(f), *f))) for f in faces]  # type: ignore[attr-defined]
    return "\n".join([word, f"{len(points)} {len(faces)} 0", *rows, ""]).encode()  # type: ignore[arg-type]


def obj(points: NDArray[np.float64], faces: object) -> bytes:
    rows = [f"v {x:.17g} {y:.17g} {z:.17g}" for x, y, z in points]
    rows += ["f " + " ".join(str(k + 1) for k in f) for f in faces]  # type: ignore[attr-defined]
    return ("\n".join(rows) + "\n").encode()


def ply(points: NDArray[np.float64], faces: object, order: str = "ascii") -> bytes:
    head = f"ply\nformat {order} 1.0\ncomment a box\nelement vertex {len(points)}\n"
    head += "".join(f"property float {axis}\n" for axis in "xyz") + "property uchar red\n"
    head += f"element face {len(faces)}\nproperty list uchar int vertex_indices\nend_header\n"  # type: ignore[arg-type]
    if order == "ascii":
        rows = [f"{x:.9g} {y:.9g} {z:.9g} 7" for x, y, z in points]
        rows += [" ".join(map(str, (len(f), *f))) for f in faces]  # type: ignore[attr-defined]
        return (head + "\n".join(rows) + "\n").encode()
    sign = "<" if "little" in order else ">"
    body = b"".join(struct.pack(sign + "fffB", *p, 7) for p in points)
    body += b"".join(struct.pack(f"{sign}B{len(f)}i", len(f), *f) for f in faces)  # type: ignore[attr-defined]
    return head.encode() + body


def glb(points: NDArray[np.float64], faces: NDArray[np.int64], **changes: object) -> bytes:
    binary = points.astype("<f4").tobytes() + faces.astype("<u4").tobytes()
    cut = 12 * len(points)
    scene: dict[str, object] = {
        "asset": {"version": "2.0"},
        "scene": 0,
        "scenes": [{"nodes": [0]}],
        "nodes": [{"mesh": 0}],
        "meshes": [{"primitives": [{"attributes": {"POSITION": 0}, "indices": 1}]}],
        "buffers": [{"byteLength": len(binary)}],
        "bufferViews": [
            {"buffer": 0, "byteOffset": 0, "byteLength": cut},
            {"buffer": 0, "byteOffset": cut, "byteLength": len(binary) - cut},
        ],
        "accessors": [
            {"bufferView": 0, "componentType": 5126, "count": len(points), "type": "VEC3"},
            {"bufferView": 1, "componentType": 5125, "count": 3 * len(faces), "type": "SCALAR"},
        ],
    }
    text = json.dumps({**scene, **changes}).encode()
    text += b" " * (-len(text) % 4)
    binary += b"\0" * (-len(binary) % 4)
    size = 12 + 8 + len(text) + 8 + len(binary)
    chunks = struct.pack("<I4s", len(text), b"JSON") + text + struct.pack("<I4s", len(binary), b"BIN\0") + binary
    return struct.pack("<4sII", b"glTF", 2, size) + chunks


def mesh_xml(points: NDArray[np.float64], faces: NDArray[np.int64]) -> str:
    vertices = "".join(f'<vertex x="{x:.9g}" y="{y:.9g}" z="{z:.9g}"/>' for x, y, z in points)
    triangles = "".join(f'<triangle v1="{a}" v2="{b}" v3="{c}"/>' for a, b, c in faces)
    return f"<mesh><vertices>{vertices}</vertices><triangles>{triangles}</triangles></mesh>"


def model(resources: str, build: str = '<item objectid="1"/>', unit: str = "millimeter", head: str = "") -> str:
    start = f'<?xml version="1.0" encoding="UTF-8"?>{head}<model unit="{unit}" xmlns="{CORE}">'
    start += "<metadata name='Title'>a box</metadata>"
    return f"{start}<resources>{resources}</resources><build>{build}</build></model>"


def threemf(text: str, **more: bytes) -> bytes:
    target = io.BytesIO()
    rels = f'<Relationships><Relationship Target="/3D/3dmodel.model" Id="r" Type="{TYPE}"/></Relationships>'
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("[Content_Types].xml", "<Types/>")
        archive.writestr("_rels/.rels", rels)
        archive.writestr("3D/3dmodel.model", text)
        for name, data in more.items():
            archive.writestr(name, data)
    return target.getvalue()


def box_3mf(unit: str = "millimeter") -> bytes:
    return threemf(model(f'<object id="1" type="model">{mesh_xml(*box())}</object>', unit=unit))


def every_format() -> dict[str, bytes]:
    """The same box in each format."""
    points, faces = box()
    return {
        "box.stl": stl(points, faces),
        "ascii.stl": ascii_stl(points, faces),
        "box.ply": ply(points, faces, "binary_little_endian"),
        "big.ply": ply(points, faces, "binary_big_endian"),
        "ascii.ply": ply(points, QUADS),
        "quads.ply": ply(points, QUADS, "binary_little_endian"),
        "mixed.ply": ply(points, (*QUADS[:5], *(tuple(f) for f in faces[10:])), "binary_big_endian"),
        "box.obj": obj(points, faces),
        "quads.obj": obj(points, QUADS),
        "box.off": off(points, faces),
        "quads.off": off(points, QUADS),
        "box.glb": glb(points, faces),
        "box.3mf": box_3mf(),
    }
