"""GLB (binary glTF 2.0): the triangles of the scene, every copy laid out, in meters with y up.

Source: Khronos glTF 2.0 specification, sections 3.4 (units, axes), 3.6 (accessors), 4.4 (container): from memory.
"""

from __future__ import annotations

import json
import struct
from typing import Any

import numpy as np
from numpy.typing import NDArray

from moldwright.scan.glb_buffer import Buffers
from moldwright.scan.instances import Instance, assemble
from moldwright.scan.limits import Limits
from moldwright.scan.polygons import check_indices
from moldwright.scan.raw import Indices, Raw
from moldwright.scan.refuse import damaged, external, no_triangles, not_supported, too_many, truncated
from moldwright.scan.repairs import Repair, RepairCode

DEEPEST = 200
MOST_NODES = 200_000
KNOWN_EXTENSIONS = ("KHR_mesh_quantization", "KHR_materials", "KHR_texture", "EXT_texture", "KHR_lights", "KHR_xmp")


def read_glb(data: bytes, limits: Limits) -> Raw:
    """The triangles of a GLB file's scene.

    Parameters
    ----------
    data : the file's bytes.
    limits : what reading may take in.
    """
    scene, binary = _chunks(data)
    _check(scene)
    try:
        instances = _lay_out(scene)
        buffers = Buffers(scene, binary)
        shapes = {mesh: _shape(scene["meshes"][mesh], buffers, limits) for mesh in {i.shape for i in instances}}
    except (KeyError, IndexError, TypeError, ValueError, AttributeError, OverflowError, RecursionError):
        raise damaged("a scene that breaks the rules of glTF") from None
    repairs = _ignored(scene)
    return assemble(shapes, instances, limits, unit="m", up=(0.0, 1.0, 0.0), repairs=repairs)


def _chunks(data: bytes) -> tuple[dict[str, Any], bytes]:
    if len(data) < 20:
        raise truncated(len(data), 20, "bytes")
    _, version, length = struct.unpack_from("<4sII", data)
    if version != 2:
        raise not_supported(f"GLB version {version}", "Export GLB 2.0.")
    if length > len(data):
        raise truncated(len(data), length, "bytes")
    found: dict[bytes, bytes] = {}
    at = 12
    while at + 8 <= length:
        size, kind = struct.unpack_from("<I4s", data, at)
        if at + 8 + size > length:
            raise truncated(length, at + 8 + size, "bytes")
        found.setdefault(kind, data[at + 8 : at + 8 + size])
        at += 8 + size
    try:
        scene = json.loads(found[b"JSON"].decode("utf-8"))
    except (KeyError, ValueError, RecursionError):
        raise damaged("a GLB without a readable scene") from None
    if not isinstance(scene, dict):
        raise damaged("a GLB whose scene is no object")
    return scene, found.get(b"BIN\0", b"")


def _check(scene: dict[str, Any]) -> None:
    for buffer in _list(scene, "buffers"):
        if not isinstance(buffer, dict) or "uri" in buffer:
            raise external(str(buffer.get("uri"))[:60] if isinstance(buffer, dict) else "a buffer")
    for name in _list(scene, "extensionsRequired"):
        if not str(name).startswith(KNOWN_EXTENSIONS):
            raise not_supported(f"GLB with {str(name)[:60]}", "Export GLB without compression.")


def _list(scene: dict[str, Any], key: str) -> list[Any]:
    value = scene.get(key, [])
    if not isinstance(value, list):
        raise damaged(f"{key} that is no list")
    return value


def _ignored(scene: dict[str, Any]) -> tuple[Repair, ...]:
    """What moves or bends the surface and is left as it rests."""
    found = []
    if scene.get("animations"):
        found.append(Repair(RepairCode.ANIMATIONS_IGNORED, len(scene["animations"]), "animations"))
    if scene.get("skins"):
        found.append(Repair(RepairCode.SKELETONS_IGNORED, len(scene["skins"]), "skeletons"))
    return tuple(found)


def _lay_out(scene: dict[str, Any]) -> list[Instance]:
    """Every use of a mesh with where it stands; a node below itself and a node with two parents are refused."""
    nodes = scene.get("nodes", [])
    stack = [(int(n), np.eye(4), 0) for n in _roots(scene, nodes)]
    found: list[Instance] = []
    seen: set[int] = set()
    while stack:
        index, above, depth = stack.pop()
        if index in seen or index < 0 or depth > DEEPEST or len(seen) > MOST_NODES:
            raise damaged("a node that stands below itself or has two parents", "a tree of nodes")
        seen.add(index)
        here = above @ _matrix(nodes[index])
        if "mesh" in nodes[index]:
            found.append(Instance(int(nodes[index]["mesh"]), here))
        stack.extend((int(child), here, depth + 1) for child in nodes[index].get("children", []))
    if not found:
        raise no_triangles("a scene without a mesh")
    return found[::-1]


def _roots(scene: dict[str, Any], nodes: list[dict[str, Any]]) -> list[int]:
    if scene.get("scenes"):
        roots: list[int] = scene["scenes"][int(scene.get("scene", 0))].get("nodes", [])
        return roots
    below = {child for node in nodes for child in node.get("children", [])}
    return [n for n in range(len(nodes)) if n not in below]


def _matrix(node: dict[str, Any]) -> NDArray[np.float64]:
    if "matrix" in node:
        return np.array(node["matrix"], np.float64).reshape(4, 4).T
    x, y, z, w = (float(v) for v in node.get("rotation", (0, 0, 0, 1)))
    turn = np.array(
        [
            [1 - 2 * (y * y + z * z), 2 * (x * y - z * w), 2 * (x * z + y * w)],
            [2 * (x * y + z * w), 1 - 2 * (x * x + z * z), 2 * (y * z - x * w)],
            [2 * (x * z - y * w), 2 * (y * z + x * w), 1 - 2 * (x * x + y * y)],
        ]
    )
    matrix = np.eye(4)
    matrix[:3, :3] = turn * np.array(node.get("scale", (1, 1, 1)), np.float64)
    matrix[:3, 3] = node.get("translation", (0, 0, 0))
    return matrix


def _shape(mesh: dict[str, Any], buffers: Buffers, limits: Limits) -> tuple[NDArray[np.floating], Indices]:
    """All triangles of one mesh; its points and lines are left out."""
    points: list[NDArray[np.floating]] = []
    faces: list[Indices] = []
    at = total = 0
    for primitive in mesh["primitives"]:
        mode = primitive.get("mode", 4)
        if mode not in (4, 5, 6) or "POSITION" not in primitive["attributes"]:
            continue
        position = buffers.accessor(int(primitive["attributes"]["POSITION"]), 3)
        count = len(position)
        order = buffers.accessor(int(primitive["indices"]), 1).ravel() if "indices" in primitive else np.arange(count)
        triangles = _triangles(order.astype(np.int64), mode)
        total += len(triangles)
        if total > limits.triangles:
            raise too_many(total, limits.triangles)
        check_indices(triangles.ravel(), count)
        points.append(position.astype(np.float64))
        faces.append(triangles + at)
        at += count
    if not points:
        return np.zeros((0, 3)), np.zeros((0, 3), np.int64)
    return np.concatenate(points), np.concatenate(faces)


def _triangles(order: Indices, mode: int) -> Indices:
    if mode == 4:
        if len(order) % 3:
            raise ValueError("indices that are no triples")
        return order.reshape(-1, 3)
    if len(order) < 3:
        return np.zeros((0, 3), np.int64)
    if mode == 6:
        return np.stack([np.full(len(order) - 2, order[0]), order[1:-1], order[2:]], axis=1)
    strip = np.stack([order[:-2], order[1:-1], order[2:]], axis=1)
    strip[1::2] = strip[1::2][:, [1, 0, 2]]
    return strip
