"""Real meshes from packages: Debian's libcgal-demo, data/meshes (CC0 by Debian's copyright file), and the examples that
the Python package pyvista carries (MIT).

The first are found through MOLDWRIGHT_MESHES (a folder with the unpacked meshes, or the package's data.tar.gz) or
where the package installs to. Tests are passed over where the files are not there.
"""

from __future__ import annotations

import os
import tarfile
from functools import cache
from importlib.util import find_spec
from pathlib import Path

import pytest

PACKED = Path("/usr/share/doc/libcgal-dev/data.tar.gz")
EXAMPLES = Path(find_spec("pyvista").origin or "").parent / "examples"  # type: ignore[union-attr]


@cache
def meshes() -> dict[str, bytes]:
    """The package's meshes: file name -> bytes."""
    place = Path(os.environ.get("MOLDWRIGHT_MESHES", PACKED))
    if place.is_dir():
        return {path.name: path.read_bytes() for path in sorted(place.rglob("*.*")) if path.suffix in (".off", ".stl")}
    if not place.is_file():
        return {}
    with tarfile.open(place) as archive:
        members = [m for m in archive.getmembers() if m.name.endswith((".off", ".stl")) and "/meshes/" in m.name]
        return {Path(m.name).name: archive.extractfile(m).read() for m in members}  # type: ignore[union-attr]


def real(name: str) -> bytes:
    """One of the package's meshes."""
    if name not in meshes():
        pytest.skip("the meshes of libcgal-demo are not here; set MOLDWRIGHT_MESHES")
    return meshes()[name]


def file_of(name: str, folder: Path) -> Path:
    """An example where it lies, or one of the package's meshes, written into a folder."""
    if (EXAMPLES / name).is_file():
        return EXAMPLES / name
    (folder / name).write_bytes(real(name))
    return folder / name
