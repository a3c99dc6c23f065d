"""What a file really is, told from its first bytes and its size, never from its name."""

from __future__ import annotations

import re

READ = ("stl", "ply", "obj", "off", "glb", "3mf")
MAGIC: tuple[tuple[bytes, str], ...] = (
    (b"glTF", "glb"),
    (b"PK\x03\x04", "zip"),
    (b"PK\x05\x06", "zip"),
    (b"\x89PNG", "a PNG picture"),
    (b"\xff\xd8\xff", "a JPEG picture"),
    (b"GIF8", "a GIF picture"),
    (b"%PDF", "a PDF document"),
    (b"\x1f\x8b", "a gzip archive"),
    (b"7z\xbc\xaf", "a 7z archive"),
    (b"Rar!", "a RAR archive"),
    (b"BZh", "a bzip2 archive"),
    (b"\xfd7zXZ", "an xz archive"),
    (b"\x7fELF", "a program"),
    (b"MZ", "a program"),
    (b"Kaydara FBX", "an FBX scene"),
)
OFF_WORD = re.compile(rb"(ST)?C?N?4?n?OFF\b")
OBJ_LINE = re.compile(rb"(?:^|[\r\n])[ \t]*(?:v[ \t]+[-+.\d]|f[ \t]+-?\d)")


def sniff(head: bytes, size: int) -> str:
    """The format of a file: one of `READ`, or what else it is in plain words.

    Parameters
    ----------
    head : its first bytes, 64 kB or the whole.
    size : its length [bytes].

    >>> sniff(b"ply\\nformat ascii 1.0\\n", 22)
    'ply'
    """
    if is_binary_stl(head, size):
        return "stl"
    for magic, kind in MAGIC:
        if head.startswith(magic):
            return kind
    return _text_kind(head)


def is_binary_stl(head: bytes, size: int) -> bool:
    """Whether the length of the file is just what the triangle count at byte 80 asks for.

    Parameters
    ----------
    head : the first 84 bytes or more.
    size : the file's length [bytes].
    """
    return size >= 84 and 84 + 50 * int.from_bytes(head[80:84], "little") == size


def _text_kind(head: bytes) -> str:
    text = head.removeprefix(b"\xef\xbb\xbf").lstrip()
    if re.match(rb"ply\s", text):
        return "ply"
    if b"\0" in head:
        return "unknown binary data"
    return _word_kind(text, re.sub(rb"(?m)^[ \t]*#.*$", b"", text).lstrip())


def _word_kind(text: bytes, lines: bytes) -> str:
    if re.match(rb"(?i)solid\b", lines):
        return "stl"
    if OFF_WORD.match(lines):
        return "off"
    if lines.startswith(b"{"):
        return "a JSON text"
    if lines.startswith(b"<"):
        return "an HTML page" if b"<html" in lines[:1000].lower() else "an XML text"
    return "obj" if OBJ_LINE.search(text) else "a text without a mesh"
