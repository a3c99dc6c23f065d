"""Hostile files and hostile names, a thousand of them: what people who break into things are known to try.

Traversal and its encodings: CWE-22, CWE-23, CWE-36, CWE-158 (NUL), RFC 3986, 2.1 (percent), RFC 3629, 10 (overlong
UTF-8); names that a system reserves: from memory; polyglots and lying types: CWE-434, CWE-646; bombs: CWE-409.
"""

from __future__ import annotations

import gzip
import io
import tarfile
import zipfile
import zlib
from dataclasses import dataclass
from itertools import product
from random import Random
from urllib.parse import quote_from_bytes

SCRIPT = b"<script>fetch('/api/backup')</script>"
PNG, JPEG, GIF, PDF = b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff\xe0\0\x10JFIF\0", b"GIF89a", b"%PDF-1.7\n"
MB = 1_000_000


@dataclass(frozen=True)
class HostileFile:
    """What is sent: a name as it stands in the query, a type that it says it is, its bytes."""

    query: str
    media_type: str
    data: bytes


def zip_of(*names: str, data: bytes = b"x") -> bytes:
    """A zip with entries of these names."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as file:
        for name in names:
            file.writestr(name, data)
    return out.getvalue()


def tar_of(name: str) -> bytes:
    """A tar whose one entry leads out of where it is unpacked."""
    out = io.BytesIO()
    with tarfile.open(fileobj=out, mode="w") as file:
        entry = tarfile.TarInfo(name)
        entry.size = 1
        file.addfile(entry, io.BytesIO(b"x"))
    return out.getvalue()


def chunk(kind: bytes, content: bytes) -> bytes:
    """A chunk of a PNG, whole and sound."""
    return len(content).to_bytes(4, "big") + kind + content + zlib.crc32(kind + content).to_bytes(4, "big")


def endless_png(side: int) -> bytes:
    """A few bytes that tell of a picture of side x side pixels."""
    head = side.to_bytes(4, "big") * 2 + b"\x08\x02\0\0\0"
    return PNG + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(bytes(1000))) + chunk(b"IEND", b"")


SVG = b'<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)">' + SCRIPT + b"</svg>"
CHEAP: tuple[bytes, ...] = (
    b"",
    b"\0",
    b"\0" * 4096,
    b"plain words\n",
    b"\xef\xbb\xbfplain words",
    "sch\u00f6n".encode("utf-16"),
    b"\xff\xfe\0",
    b"<!doctype html>" + SCRIPT,
    b"  \n\t<HTML>" + SCRIPT,
    b"\xef\xbb\xbf<html>" + SCRIPT,
    SCRIPT,
    b"<!-- --><script>",
    SVG,
    b"<?xml version='1.0'?>" + SVG,
    b"<!DOCTYPE x [<!ENTITY y SYSTEM 'file:///etc/passwd'>]><x>&y;</x>",
    b"<iframe src=javascript:alert(1)>",
    b"<object data=x>",
    b"text that goes on \xe2\x80\xae backwards",
    b"\x1b[2Jclear",
    PDF + b"/OpenAction<</S/JavaScript/JS(app.alert(1))>>\n%%EOF",
    PDF + SCRIPT + b"\n%%EOF\n",
    PDF + SCRIPT,
    PDF + b"%%EOF\n" + zip_of("a"),
    b"<html>" + PDF + b"%%EOF",
    zip_of("../../escaped.txt", "/etc/escaped"),
    zip_of("bomb", data=bytes(10 * MB)),
    zip_of("n.zip", data=zip_of("b", data=bytes(MB))),
    tar_of("../../escaped"),
    gzip.compress(bytes(10 * MB)),
    zlib.compress(bytes(MB)),
    GIF + b"/*" + SCRIPT + b"*/",
    GIF,
    b"BM" + SCRIPT,
    b"II*\0",
    b"MZ" + bytes(200),
    b"\x7fELF" + bytes(200),
    b"#!/bin/sh\ntouch escaped\n",
    b"@echo off\r\ndel *",
    b"\0asm",
    b"%!PS\n",
    b"{\\rtf1 }",
    b"\xd0\xcf\x11\xe0" + bytes(100),
    b"RIFF\0\0\0\0WEBP",
    b"\0\0\0\x18ftypavif" + bytes(50),
    b"x" * (2 * MB),
    b'{"__proto__": {"role": 3}}',
    b"--boundary\r\nContent-Disposition: form-data; filename=../x\r\n\r\n",
    b"\x00\xff" * 999,
)
LOOKED_INTO: tuple[bytes, ...] = (
    JPEG + b"<html>" + SCRIPT,
    JPEG + SCRIPT + b"\xff\xd9",
    PNG + SCRIPT,
    endless_png(100_000),
    PNG + chunk(b"IHDR", b""),
    b"\0\0\0\x18ftypheic" + SCRIPT,
    JPEG,
    PNG,
)
"""Those that begin as photos do: each is looked into by a process of its own, so they are few."""
NAMES: tuple[bytes, ...] = (
    b"",
    b".",
    b"..",
    b"/",
    b"\\",
    b"~",
    b"../../escaped",
    b"..\\..\\escaped",
    b"....//....//escaped",
    b"..;/escaped",
    b"/etc/passwd",
    b"C:\\windows\\escaped",
    b"\\\\server\\share\\x",
    b"//server/share",
    b"file:///etc/passwd",
    b"a\0.pdf",
    b"\0",
    b"%2e%2e%2f%2e%2e%2fescaped",
    b"%252e%252e%252fescaped",
    b"\xc0\xae\xc0\xae\xc0\xafescaped",
    b"\xff\xfe",
    b"%00",
    b"..%c0%af..%c0%afescaped",
    b"%uff0e%uff0e/escaped",
    "\uff0e\uff0e/escaped".encode(),
    b"CON",
    b"nul.txt",
    b"COM1.png",
    b"aux",
    b"a" * 390,
    "\u00fc".encode() * 300,
    b"$(touch escaped)",
    b"`touch escaped`",
    b"; touch escaped",
    b"| touch escaped",
    b"&& touch escaped",
    b"-rf",
    b"--version",
    b"*",
    b"?",
    b'"><script>alert(1)</script>',
    b"x\r\nSet-Cookie: a=b",
    b"x\ny",
    "\u202egnp.exe".encode(),
    "\u2028".encode(),
    b"'; DROP TABLE event; --",
    b"{{ 7 * 7 }}",
    b"%(x)s",
    b"%s%n",
    b".htaccess",
    b"index.html",
    b"x.svg",
    b"x.php.jpg",
    b"x.pdf ",
    b"x.",
    b"a/../b",
    b"\x1b[2J",
    b"a" * 5000,
)
TYPES = (
    "application/octet-stream",
    "image/png",
    "text/html",
    "image/svg+xml",
    "application/pdf",
    "x/y; a=b",
    "\u00a0",
    "",
)


def hostile_files(count: int = 1000) -> list[HostileFile]:
    """So many, always the same: every name, every content and every type is among them."""
    chance = Random(9110)
    pairs = list(product(NAMES, CHEAP))
    chance.shuffle(pairs)
    firsts = [(name, CHEAP[number % len(CHEAP)]) for number, name in enumerate(NAMES)]
    firsts += [(NAMES[number % len(NAMES)], data) for number, data in enumerate((*CHEAP, *LOOKED_INTO))]
    chosen = [*firsts, *pairs][:count]
    types = [TYPES[number % len(TYPES)] for number in range(count)]
    return [HostileFile(quote_from_bytes(name), told, data) for (name, data), told in zip(chosen, types, strict=True)]


def hostile_paths() -> list[str]:
    """The names as parts of a path, as they are where a path may hold them and percent-encoded once and twice."""
    once = [quote_from_bytes(name) for name in NAMES]
    twice = [quote_from_bytes(name.encode()) for name in once]
    bare = [name.decode() for name in NAMES if name.isascii() and name.decode().isprintable() and b" " not in name]
    return [*once, *twice, *(each for each in bare if not set(each) & set('?#\\"<>^`{|}%'))]
