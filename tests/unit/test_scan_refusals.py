"""Every broken scan is refused by a code, with what was found, the limit and a remedy."""

from __future__ import annotations

import io
import zipfile
from dataclasses import replace

import numpy as np
import pytest
from original_files import (
    TYPE,
    ascii_stl,
    box,
    every_format,
    glb,
    mesh_xml,
    model,
    obj,
    off,
    ply,
    stl,
    threemf,
)

from moldwright.errors import InputRefused
from moldwright.scan import Limits
from moldwright.scan.parse import parse

POINTS, FACES = box()
FILES = every_format()
PNG = b"\x89PNG\r\n\x1a\n" + bytes(200)
NAN = np.where(np.arange(24).reshape(8, 3) == 5, np.nan, POINTS)
INF = np.where(np.arange(24).reshape(8, 3) == 5, np.inf, POINTS)
FAR = FACES.copy()
FAR[3, 1] = 8
EMPTY = np.zeros((0, 3), int)
BOX_XML = f'<object id="1">{mesh_xml(POINTS, FACES)}</object>'
ENTITIES = '<!DOCTYPE m [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;">]>'
PRODUCTION = "http://schemas.microsoft.com/3dmanufacturing/production/2015/06"
PATH_UP = (
    f'<object id="1"><components><component xmlns:p="{PRODUCTION}" p:path="/../u" objectid="1"/></components></object>'
)
OUTSIDE = '<!DOCTYPE m [<!ENTITY x SYSTEM "file:///etc/hostname">]>'


def component_bomb(levels: int) -> bytes:
    """Ten copies of ten copies of ... of a box."""
    rows = [BOX_XML]
    for k in range(2, levels + 2):
        uses = f'<component objectid="{k - 1}"/>' * 10
        rows.append(f'<object id="{k}"><components>{uses}</components></object>')
    return threemf(model("".join(rows), f'<item objectid="{levels + 1}"/>'))


def self_component() -> bytes:
    rows = '<object id="1"><components><component objectid="2"/></components></object>'
    rows += '<object id="2"><components><component objectid="1"/></components></object>'
    return threemf(model(rows))


def many_entries(count: int) -> bytes:
    return threemf(model(BOX_XML), **{f"x{k}": b"" for k in range(count)})


def relation_to(path: str, mode: str = "Internal") -> bytes:
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w") as archive:
        relation = f'<Relationship TargetMode="{mode}" Target="{path}" Type="{TYPE}"/>'
        archive.writestr("_rels/.rels", f"<Relationships>{relation}</Relationships>")
    return target.getvalue()


def plain_zip() -> bytes:
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w") as archive:
        archive.writestr("word/document.xml", "<a/>")
    return target.getvalue()


REFUSED: dict[str, tuple[str, bytes, str]] = {
    # empty, mislabelled, unknown
    "empty": ("a.stl", b"", "file-empty"),
    "picture": ("a.stl", PNG, "mislabelled"),
    "page": ("a.obj", b"<!doctype html><html><body>not found</body></html>", "mislabelled"),
    "ply as stl": ("a.stl", FILES["box.ply"], "mislabelled"),
    "stl as obj": ("a.obj", FILES["box.stl"], "mislabelled"),
    "obj as off": ("a.off", FILES["box.obj"], "mislabelled"),
    "off as ply": ("a.ply", FILES["box.off"], "mislabelled"),
    "3mf as glb": ("a.glb", FILES["box.3mf"], "mislabelled"),
    "glb as 3mf": ("a.3mf", FILES["box.glb"], "mislabelled"),
    "other zip": ("a.3mf", plain_zip(), "mislabelled"),
    "prose": ("a.obj", b"dear reader, this is a letter\n", "mislabelled"),
    "no ending": ("scan", FILES["box.stl"], "format-unknown"),
    "other ending": ("a.gltf", b"{}", "format-unknown"),
    # truncated
    "stl cut": ("a.stl", FILES["box.stl"][:-20], "file-truncated"),
    "stl head only": ("a.stl", FILES["box.stl"][:50], "file-truncated"),
    "ascii stl cut": ("a.stl", FILES["ascii.stl"][:-30], "file-truncated"),
    "ply cut": ("a.ply", FILES["box.ply"][:-5], "file-truncated"),
    "quad ply cut": ("a.ply", FILES["mixed.ply"][:-5], "file-truncated"),
    "ply vertices cut": ("a.ply", FILES["box.ply"][:-200], "file-truncated"),
    "ply header cut": ("a.ply", FILES["box.ply"][:60], "file-truncated"),
    "ascii ply cut": ("a.ply", FILES["ascii.ply"][:-12], "file-truncated"),
    "off cut": ("a.off", FILES["box.off"][:-20], "file-truncated"),
    "off vertices cut": ("a.off", FILES["box.off"][:40], "file-truncated"),
    "off word only": ("a.off", b"OFF\n", "file-truncated"),
    "obj cut": ("a.obj", FILES["box.obj"][:-3], "file-damaged"),
    "glb cut": ("a.glb", FILES["box.glb"][:-20], "file-truncated"),
    "glb head only": ("a.glb", FILES["box.glb"][:10], "file-truncated"),
    "3mf cut": ("a.3mf", FILES["box.3mf"][:-40], "file-truncated"),
    # no triangles
    "stl none": ("a.stl", stl(POINTS, EMPTY), "zero-triangles"),
    "ascii stl none": ("a.stl", b"solid a\nendsolid a\n", "zero-triangles"),
    "obj none": ("a.obj", obj(POINTS, EMPTY), "zero-triangles"),
    "off none": ("a.off", off(POINTS, EMPTY), "zero-triangles"),
    "off edges": ("a.off", off(POINTS, [(0, 1), (1, 2)]), "zero-triangles"),
    "point cloud": ("a.ply", ply(POINTS, EMPTY), "zero-triangles"),
    "glb none": ("a.glb", glb(POINTS, FACES, nodes=[{}]), "zero-triangles"),
    "3mf none": ("a.3mf", threemf(model("", "")), "zero-triangles"),
    "3mf not built": ("a.3mf", threemf(model(BOX_XML, "")), "zero-triangles"),
    "all slivers": ("a.off", off(POINTS, [(0, 1, 1), (2, 2, 3)]), "zero-triangles"),
    # not finite
    "stl nan": ("a.stl", stl(NAN, FACES), "not-finite"),
    "ascii stl nan": ("a.stl", ascii_stl(NAN, FACES), "not-finite"),
    "ply inf": ("a.ply", ply(INF, FACES, "binary_little_endian"), "not-finite"),
    "obj nan": ("a.obj", obj(NAN, FACES), "not-finite"),
    "off inf": ("a.off", off(INF, FACES), "not-finite"),
    "glb nan": ("a.glb", glb(NAN, FACES), "not-finite"),
    "3mf inf": ("a.3mf", threemf(model(f'<object id="1">{mesh_xml(INF, FACES)}</object>')), "not-finite"),
    "far away": ("a.off", off(POINTS + 1e12, FACES), "coordinates-too-large"),
    # indices
    "ply index": ("a.ply", ply(POINTS, FAR, "binary_little_endian"), "index-out-of-range"),
    "ply index below 0": ("a.ply", ply(POINTS, FACES - 1), "index-out-of-range"),
    "obj index": ("a.obj", obj(POINTS, FAR), "index-out-of-range"),
    "obj index 0": ("a.obj", obj(POINTS, FACES - 1), "index-out-of-range"),
    "obj index too far back": ("a.obj", obj(POINTS, FACES - 10), "index-out-of-range"),
    "off index": ("a.off", off(POINTS, FAR), "index-out-of-range"),
    "glb index": ("a.glb", glb(POINTS, FAR), "index-out-of-range"),
    "3mf index": ("a.3mf", threemf(model(f'<object id="1">{mesh_xml(POINTS, FAR)}</object>')), "index-out-of-range"),
    # damaged and variants
    "stl with more": ("a.stl", FILES["box.stl"] + bytes(500), "file-damaged"),
    "off word in numbers": ("a.off", FILES["box.off"].replace(b"20", b"2x", 1), "file-damaged"),
    "obj prose": ("a.obj", FILES["box.obj"] + b"hello there\n", "file-damaged"),
    "off count": ("a.off", FILES["box.off"].replace(b"\n3 0 2 3", b"\n9 0 2 3"), "file-damaged"),
    "binary off": ("a.off", b"OFF BINARY\n" + bytes(100), "variant-not-read"),
    "4-dimensional off": ("a.off", b"4OFF\n1 1 0\n0 0 0 1\n3 0 0 0\n", "variant-not-read"),
    "glb version": ("a.glb", FILES["box.glb"].replace(b"glTF\x02", b"glTF\x01"), "variant-not-read"),
    "glb draco": (
        "a.glb",
        glb(POINTS, FACES, extensionsRequired=["KHR_draco_mesh_compression"]),
        "variant-not-read",
    ),
    "glb json": ("a.glb", FILES["box.glb"].replace(b'"asset"', b'"asset?'), "file-damaged"),
    "glb without meshes": ("a.glb", glb(POINTS, FACES, meshes=[]), "file-damaged"),
    "glb accessor": ("a.glb", glb(POINTS, FACES, accessors=[{}, {}]), "file-damaged"),
    "glb loop": ("a.glb", glb(POINTS, FACES, nodes=[{"children": [0]}]), "file-damaged"),
    "glb flattened": ("a.glb", glb(POINTS, FACES, nodes=[{"mesh": 0, "scale": [1, 1, 0]}]), "file-damaged"),
    "glb short buffer": ("a.glb", glb(POINTS, FACES, buffers=[{"byteLength": 9999}]), "file-truncated"),
    "3mf unit": ("a.3mf", threemf(model(BOX_XML, unit="cubit")), "variant-not-read"),
    "3mf not xml": ("a.3mf", threemf("<model><resources>"), "file-damaged"),
    "3mf other xml": ("a.3mf", threemf("<page/>"), "file-damaged"),
    "3mf missing object": ("a.3mf", threemf(model(BOX_XML, '<item objectid="7"/>')), "file-damaged"),
    "3mf transform": (
        "a.3mf",
        threemf(model(BOX_XML, '<item objectid="1" transform="1 0 0"/>')),
        "file-damaged",
    ),
    "3mf deep": ("a.3mf", threemf(model("<a>" * 500 + "</a>" * 500)), "file-damaged"),
    # attacks
    "glb buffer elsewhere": (
        "a.glb",
        glb(POINTS, FACES, buffers=[{"byteLength": 9, "uri": "b"}]),
        "external-reference",
    ),
    "3mf model elsewhere": ("a.3mf", relation_to("http://example.org/a.model", "External"), "external-reference"),
    "entity bomb": ("a.3mf", threemf(model(BOX_XML, head=ENTITIES)), "xml-declarations"),
    "entity from a file": ("a.3mf", threemf(model(BOX_XML, head=OUTSIDE)), "xml-declarations"),
    "component bomb": ("a.3mf", component_bomb(9), "too-many-triangles"),
    "component of itself": ("a.3mf", self_component(), "file-damaged"),
    "archive of zeros": ("a.3mf", threemf(model(BOX_XML), zeros=bytes(4 << 20)), "archive-bomb"),
    "archive of many": ("a.3mf", many_entries(2100), "archive-bomb"),
    "path up in a relation": ("a.3mf", relation_to("/../../up.model"), "path-leaves-archive"),
    "path up in a component": ("a.3mf", threemf(model(PATH_UP)), "path-leaves-archive"),
    "path up": ("a.3mf", threemf(model(BOX_XML), **{"../up.model": b"x"}), "path-leaves-archive"),
    "path up backward": ("a.3mf", threemf(model(BOX_XML), **{"a\\..\\..\\up": b"x"}), "path-leaves-archive"),
    "path with drive": ("a.3mf", threemf(model(BOX_XML), **{"c:/up.model": b"x"}), "path-leaves-archive"),
}


@pytest.mark.parametrize("case", REFUSED)
def test_a_broken_scan_is_refused(case: str) -> None:
    name, data, code = REFUSED[case]
    with pytest.raises(InputRefused) as caught:
        parse(name, data, Limits())
    assert caught.value.code == code
    assert caught.value.remedy.endswith(".")
    assert caught.value.actual is not None


def test_a_mislabelled_file_is_told_what_it_is() -> None:
    with pytest.raises(InputRefused) as caught:
        parse("a.stl", FILES["box.ply"], Limits())
    assert (caught.value.actual, caught.value.limit) == ("ply", "stl")
    assert ".ply" in caught.value.remedy


@pytest.mark.parametrize("name", FILES)
def test_more_triangles_than_allowed(name: str) -> None:
    """Twelve triangles where eleven are allowed."""
    with pytest.raises(InputRefused) as caught:
        parse(name, FILES[name], replace(Limits(), triangles=11))
    assert (caught.value.code, caught.value.limit) == ("too-many-triangles", 11)
    assert parse(name, FILES[name], replace(Limits(), triangles=12)).bodies == 1


@pytest.mark.parametrize(
    ("name", "data"),
    [
        ("a.stl", stl(POINTS, EMPTY)[:80] + (25_000_000).to_bytes(4, "little")),
        ("a.off", b"OFF\n3 25000000 0\n"),
        ("a.ply", FILES["ascii.ply"].replace(b"face 6", b"face 25000000")),
        ("a.ply", FILES["box.ply"].replace(b"vertex 8", b"vertex 4000000000")),
    ],
)
def test_announced_counts_cost_nothing(name: str, data: bytes) -> None:
    """A short file that announces millions is refused before memory is taken."""
    with pytest.raises(InputRefused) as caught:
        parse(name, data, Limits())
    assert caught.value.code in ("too-many-triangles", "file-truncated")


def test_an_archive_that_lies_about_its_size() -> None:
    """The directory says 10 bytes; the packed bytes hold more."""
    data = bytearray(threemf(model(BOX_XML)))
    at = data.rindex(b"3D/3dmodel.model") - 46
    data[at + 24 : at + 28] = (10).to_bytes(4, "little")
    with pytest.raises(InputRefused) as caught:
        parse("a.3mf", bytes(data), Limits())
    assert caught.value.code == "file-damaged"
