"""A file's bytes into a scan, by what the file really is."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import PurePath

from moldwright.errors import InputRefused
from moldwright.scan.glb import read_glb
from moldwright.scan.limits import Limits
from moldwright.scan.obj import read_obj
from moldwright.scan.off import read_off
from moldwright.scan.ply import read_ply
from moldwright.scan.raw import Raw
from moldwright.scan.scan import Scan
from moldwright.scan.sniff import READ, sniff
from moldwright.scan.stl import read_stl
from moldwright.scan.threemf import read_3mf
from moldwright.scan.tidy import tidy

READERS: dict[str, Callable[[bytes, Limits], Raw]] = {
    "stl": read_stl,
    "ply": read_ply,
    "obj": read_obj,
    "off": read_off,
    "glb": read_glb,
    "3mf": read_3mf,
}
HEAD = 1 << 16


def parse(name: str, data: bytes, limits: Limits) -> Scan:
    """Read a whole file that is in memory.

    Parameters
    ----------
    name : the file's name; its ending must agree with what the file is.
    data : the file's bytes.
    limits : what a reader may take in.
    """
    kind = format_of(name, data[:HEAD], len(data))
    return tidy(READERS[kind](data, limits), kind, limits)


def format_of(name: str, head: bytes, size: int) -> str:
    """The format that both the name and the bytes tell; refused where they differ.

    Parameters
    ----------
    name : the file's name.
    head : its first bytes, 64 kB or the whole.
    size : its length [bytes].

    >>> format_of("fox.OFF", b"OFF\\n8 6 12\\n", 11)
    'off'
    """
    named = PurePath(name).suffix.lower().removeprefix(".")
    if size == 0:
        raise InputRefused("file-empty", 0, 1, "bytes", "Copy or export the file again.")
    found = sniff(head, size)
    if named not in READ:
        hint = f'Rename it to end in ".{found}".' if found in READ else "Export the scan in one of these formats."
        raise InputRefused("format-unknown", f".{named}" if named else "no ending", ", ".join(READ), "", hint)
    if found == named or (found == "zip" and named == "3mf") or _cut_short(found, named, head):
        return named
    remedy = f'Rename it to end in ".{found}", if it is the scan.' if found in READ else "Give the scan itself."
    raise InputRefused("mislabelled", found, named, "", remedy)


def _cut_short(found: str, named: str, head: bytes) -> bool:
    """Whether the file may still be what it is called: its reader then says what is missing."""
    if named == "stl":
        return found == "unknown binary data"
    begins = {"ply": b"ply", "off": b"OFF", "glb": b"glTF", "3mf": b"PK", "obj": b"#"}[named]
    return head.startswith(begins) or begins.startswith(head[:4])
