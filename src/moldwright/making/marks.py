"""A mark of the code that a stage reaches: its module, all that it imports in this package, their data, the libraries.

Constants of a module count, since its source does. A module that is only named by a text (a child process, a package
whose data is read) counts as imported. What nothing reaches may change without a kept result being lost.
"""

from __future__ import annotations

import ast
import hashlib
import json
import os
import platform
import sys
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from moldwright.disk.whole_file import write_file

HOME = Path(__file__).parents[1]
LIBRARIES = {"PIL": "pillow", "fontpkg_atkinson_hyperlegible": "fontpkg-atkinson-hyperlegible", "igl": "libigl",
             "skimage": "scikit-image"}  # fmt: skip
"""Packages whose distribution has another name than the module that is imported."""
Stamp = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class FileMark:
    """A file's hash and what it imports or names, true as long as its `stamp` (times, size) is."""

    stamp: Stamp
    digest: str
    names: tuple[str, ...]


class CodeMarks:
    """Marks by module; sources that did not change since the last command are not read again.

    Parameters
    ----------
    home : the package's folder.
    memo : a file that remembers hashes and imports; None to read all.
    """

    def __init__(self, home: Path = HOME, memo: Path | None = None) -> None:
        self._package = home.name
        self._above = home.parent
        self._memo = memo
        self._known = {} if memo is None else _remembered(memo, home)
        self._stamps = dict(_stamps(str(home), home.name))
        self._marks: dict[str, str] = {}
        self._fresh = False

    def __call__(self, module: str) -> str:
        """The mark of one module.

        Parameters
        ----------
        module : its full name.
        """
        if module not in self._marks:
            self._marks[module] = self._mark(module)
            self._remember()
        return self._marks[module]

    def reach(self, module: str) -> tuple[set[str], set[str]]:
        """The files of the package that a module reaches, data included, and the libraries that it needs.

        Parameters
        ----------
        module : its full name.
        """
        files: set[str] = set()
        outside: set[str] = set()
        waiting = [module]
        while waiting:
            name = waiting.pop()
            if name.partition(".")[0] != self._package:
                outside.add(name)
                continue
            for path in self._sources(name):
                if path not in files:
                    files.add(path)
                    waiting.extend(self._file(path).names)
        folders = {path.rpartition("/")[0] for path in files}
        return files | {path for path in self._stamps if self._data_of(path) in folders}, outside

    def _mark(self, module: str) -> str:
        files, outside = self.reach(module)
        digest = hashlib.sha256(f"{sys.version_info[:2]} {platform.machine()}".encode())
        for path in sorted(files):
            digest.update(f"{path} {self._file(path).digest}\n".encode())
        for name in sorted(outside):
            digest.update(f"{name} {_versions().get(_plain(LIBRARIES.get(name, name)), '')}\n".encode())
        return digest.hexdigest()[:16]

    def _sources(self, name: str) -> Iterator[str]:
        """A module's file and those of the packages around it; of "module.thing" the module's."""
        place = ""
        for part in name.split("."):
            place = f"{place}/{part}" if place else part
            found = next((path for path in (f"{place}/__init__.py", f"{place}.py") if path in self._stamps), None)
            if found is None:
                return
            yield found

    def _data_of(self, path: str) -> str:
        """The package that a data file belongs to; "" for a source."""
        folder = "" if path.endswith(".py") else path.rpartition("/")[0]
        while folder and f"{folder}/__init__.py" not in self._stamps:
            folder = folder.rpartition("/")[0]
        return folder

    def _file(self, path: str) -> FileMark:
        known = self._known.get(path)
        if known is None or known.stamp != self._stamps[path]:
            content = (self._above / path).read_bytes()
            names = tuple(sorted(_named(content, self._package))) if path.endswith(".py") else ()
            known = FileMark(self._stamps[path], hashlib.sha256(content).hexdigest()[:16], names)
            self._known[path] = known
            self._fresh = True
        return known

    def _remember(self) -> None:
        if self._memo is None or not self._fresh:
            return
        self._fresh = False
        told = {path: (mark.stamp, mark.digest, mark.names) for path, mark in self._known.items()}
        with suppress(OSError):
            self._memo.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
            write_file(self._memo, json.dumps({"home": str(self._above), "files": told}))


def _remembered(memo: Path, home: Path) -> dict[str, FileMark]:
    """What an earlier command noted about this very folder; nothing where it is torn or another's."""
    try:
        held = json.loads(memo.read_text("utf-8"))
        told = held["files"] if held["home"] == str(home.parent) else {}
        return {n: FileMark((s[0], s[1], s[2]), str(digest), tuple(names)) for n, (s, digest, names) in told.items()}
    except (OSError, ValueError, TypeError, KeyError, IndexError, AttributeError, RecursionError):
        return {}


def _stamps(folder: str, name: str) -> Iterator[tuple[str, Stamp]]:
    """Times and size of every file under a folder, by its path."""
    for entry in os.scandir(folder):
        path = f"{name}/{entry.name}"
        if entry.is_dir():
            yield from _stamps(entry.path, path) if entry.name != "__pycache__" else ()
        else:
            status = entry.stat()
            yield path, (status.st_mtime_ns, status.st_ctime_ns, status.st_size)


def _named(source: bytes, package: str) -> set[str]:
    """The package's modules that a source imports or names in a text, and the libraries that it imports."""
    names: set[str] = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            names |= {f"{node.module}.{alias.name}" for alias in node.names}
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value.startswith(f"{package}."):
            names |= {node.value} if node.value.replace(".", "_").isidentifier() else set()
    libraries = {name.partition(".")[0] for name in names} - {package} - sys.stdlib_module_names
    return libraries | {name for name in names if name.startswith(f"{package}.")}


@cache
def _versions() -> dict[str, str]:
    """The versions of what is installed, from the names of its folders of metadata: quicker than reading them."""
    found: dict[str, str] = {}
    for place in sys.path:
        names = os.listdir(place) if place and os.path.isdir(place) else []
        infos = (name.removesuffix(".dist-info").partition("-") for name in names if name.endswith(".dist-info"))
        found = {_plain(name): version for name, _, version in infos} | found
    return found


def _plain(name: str) -> str:
    return name.lower().replace("-", "_").replace(".", "_")
