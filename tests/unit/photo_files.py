"""Photos as files, sound and hostile, made here; nothing in them comes from a camera."""

from __future__ import annotations

import base64
import io
import struct
import zlib

import numpy as np
import numpy.typing as npt
from PIL import Image

Pixels = npt.NDArray[np.uint8]


def picture(width: int = 160, height: int = 120) -> Pixels:
    """Red left, blue right, a green strip along the top: its eight orientations can be told apart."""
    pixels = np.zeros((height, width, 3), np.uint8)
    pixels[:, : width // 2] = 200, 40, 40
    pixels[:, width // 2 :] = 40, 40, 200
    pixels[: height // 6] = 40, 200, 40
    return pixels


def encoded(image: Image.Image | Pixels, kind: str = "JPEG", **how: object) -> bytes:
    target = io.BytesIO()
    image = image if isinstance(image, Image.Image) else Image.fromarray(image)
    image.save(target, kind, **how)
    return target.getvalue()


def exif(orientation: int = 1, focal_35mm: int | None = None) -> Image.Exif:
    tags = Image.Exif()
    tags[0x0112] = orientation
    if focal_35mm is not None:
        tags.get_ifd(0x8769)[0xA405] = focal_35mm
    return tags


def png_bomb(width: int, height: int) -> bytes:
    """A PNG of a few kilobytes that announces any size (PNG standard, chunks: length, type, data, CRC)."""
    rows = zlib.compress(bytes(1 << 20), 9)
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        _chunk(kind, data)
        for kind, data in (
            (b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)),
            (b"IDAT", rows),
            (b"IEND", b""),
        )
    )


def jpeg_of_size(width: int, height: int) -> bytes:
    """A sound small JPEG whose frame header (SOF0, ITU-T T.81 B.2.2) is made to announce another size."""
    data = bytearray(encoded(picture()))
    at = data.index(b"\xff\xc0") + 5
    data[at : at + 4] = struct.pack(">HH", height, width)
    return bytes(data)


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


HEIC = base64.b64decode(
    """
    AAAAHGZ0eXBoZWljAAAAAG1pZjFoZWljbWlhZgAAAchtZXRhAAAAAAAAACFoZGxyAAAAAAAAAABwaWN0AAAAAAAAAAAAAAAAAAAA
    ADRpbG9jAAAAAERAAAIAAQAAAAAB7AABAAAAAAAAAIIAAgAAAAACbgABAAAAAAAAAEIAAAA4aWluZgAAAAAAAgAAABVpbmZlAgAA
    AAABAABodmMxAAAAABVpbmZlAgAAAQACAABFeGlmAAAAAA5waXRtAAAAAAABAAABB2lwcnAAAADmaXBjbwAAAHZodmNDAQNwAAAA
    kAAAAAAAHvAA/P34+AAADwNgAAEAGEABDAH//wNwAAADAJAAAAMAAAMAHroCQGEAAQAqQgEBA3AAAAMAkAAAAwAAAwAeoCCBBZbq
    5Ka5uAhoMCAAAAMDIAAAAwAhYgABAAZEAcFzwIkAAAATY29scm5jbHgAAQANAAaAAAAAFGlzcGUAAAAAAAAAQAAAAEAAAAAoY2xh
    cAAAAEAAAAABAAAAMAAAAAEAAAAAAAAAAv////AAAAACAAAAEHBpeGkAAAAAAwgICAAAAAlpcm90AwAAABlpcG1hAAAAAAAAAAEA
    AQaBAgMFhIYAAAAaaXJlZgAAAAAAAAAOY2RzYwACAAEAAQAAAMxtZGF0AAAAfigBrwngFVukkAY/+6J//KXsysS/2BouxFW/qbbd
    enRM2BVyEMH/B2+ONOf9hzKMX+qYgY9XnGn9DhZms670KtzoagCNdAEL3dK5WQdytgNQQpLiSBTAL5gzX6eauZ2M+wANzXUTKDls
    Cae78RHeZhB6QGv6tF4UdMzT952IOAAAAAZFeGlmAABNTQAqAAAACAACARIAAwAAAAEABgAAh2kABAAAAAEAAAAmAAAAAAABpAUA
    AwAAAAEAGgAAAAAAAA==
    """
)
"""`picture(64, 48)` lying on its side, with its orientation (6) and a focal length of 26 mm, by a general encoder."""
