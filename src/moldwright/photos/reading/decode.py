"""From the bytes of one photo to upright pixels at the working size. Runs in the child process only."""

from __future__ import annotations

import io
from dataclasses import dataclass

import cv2
import numpy as np
import numpy.typing as npt
import pi_heif
from PIL import Image
from PIL.JpegImagePlugin import JpegImageFile
from PIL.PngImagePlugin import PngImageFile

from moldwright.photos.reading.exif import MIRRORED, QUARTERS, exif_from, focal_in, orientation_in
from moldwright.photos.reading.limits import PhotoLimits
from moldwright.photos.reading.sniff import PhotoKind, kind_of
from moldwright.photos.told import PhotoReason

Image.MAX_IMAGE_PIXELS = None
Bytes = npt.NDArray[np.uint8]
SPARE = 1.03
"""A working size this much over the wanted one stays, rather than being resampled by less than a pixel in 30."""
SHORT = 0.75
"""The working size may fall this much below the wanted one where the decoder then does the reducing, at no cost."""


class NotRead(Exception):
    """A photo that is refused, with the reason, the figure and its limit."""

    def __init__(self, reason: PhotoReason, figure: float = 0.0, limit: float = 0.0) -> None:
        self.reason, self.figure, self.limit = reason, figure, limit
        super().__init__(reason)


@dataclass(frozen=True, slots=True, eq=False)
class Decoded:
    """Upright pixels, (height, width, 3 or with alpha 4), and what else is kept, as `Photo` has it."""

    pixels: Bytes
    quarters: int
    focal_35mm: float | None


def decode(data: bytes, limits: PhotoLimits) -> Decoded:
    """One photo, or `NotRead`; a damaged file may raise anything else.

    Parameters
    ----------
    data : the whole file.
    limits : the most pixels, and the working size.
    """
    kind = kind_of(data[:64])
    if kind is None:
        raise NotRead(PhotoReason.WRONG_TYPE)
    if kind is PhotoKind.HEIC:
        return _heic(data, limits)
    image = (JpegImageFile if kind is PhotoKind.JPEG else PngImageFile)(io.BytesIO(data))
    _check_pixels(image.size, limits)
    image.draft("RGB", _reduced(image.size, limits))
    image.load()
    exif = exif_from(image.info.get("exif"))
    orientation = orientation_in(exif)
    pixels = _upright(_sized(_plain(image), limits), orientation)
    return Decoded(pixels, QUARTERS[orientation], focal_in(exif))


def flat(pixels: Bytes) -> Bytes:
    """Pixels without alpha, on white where they were see-through.

    Parameters
    ----------
    pixels : (height, width, 3 or 4).
    """
    if pixels.shape[2] == 3:
        return pixels
    alpha = pixels[..., 3:].astype(np.uint16)
    return ((pixels[..., :3] * alpha + 255 * (255 - alpha) + 127) // 255).astype(np.uint8)


def mask_from(pixels: Bytes, width_px: int, height_px: int) -> npt.NDArray[np.bool_]:
    """Where the piece is by a mask: what is opaque if anything is see-through, else what is lighter than half.

    Parameters
    ----------
    pixels : of the mask, upright, (height, width, 3 or 4).
    width_px, height_px : of the photo at its working size, whose shape the mask must have.
    """
    height, width = pixels.shape[:2]
    if abs(width * height_px - height * width_px) > 0.01 * width * height_px:
        raise NotRead(PhotoReason.MASK_UNREADABLE, width / height, width_px / height_px)
    cut_out = pixels.shape[2] == 4 and bool(pixels[..., 3].min() < 128)
    gray = pixels[..., 3] if cut_out else cv2.cvtColor(np.ascontiguousarray(pixels[..., :3]), cv2.COLOR_RGB2GRAY)
    smaller = width_px < width
    sized = cv2.resize(gray, (width_px, height_px), interpolation=cv2.INTER_AREA if smaller else cv2.INTER_LINEAR)
    return np.asarray(sized) >= 128


def _check_pixels(size: tuple[int, int], limits: PhotoLimits) -> None:
    pixels = size[0] * size[1]
    if pixels > limits.pixels:
        raise NotRead(PhotoReason.TOO_MANY_PIXELS, pixels / 1e6, limits.pixels / 1e6)


def _heic(data: bytes, limits: PhotoLimits) -> Decoded:
    """Its decoder stands the pixels upright by itself; its EXIF still tells how the sensor lay."""
    try:
        image = pi_heif.open_heif(data, convert_hdr_to_8bit=True)
        _check_pixels(image.size, limits)
        exif = exif_from(image.info.get("exif"))
        turned = Image.frombytes(image.mode, image.size, bytes(image.data), "raw", image.mode, image.stride)
    except NotRead:
        raise
    except Exception as error:
        raise NotRead(PhotoReason.HEIC_UNREADABLE) from error
    return Decoded(_sized(_plain(turned), limits), QUARTERS[orientation_in(exif)], focal_in(exif))


def _reduced(size: tuple[int, int], limits: PhotoLimits) -> tuple[int, int]:
    by = _factor(max(size), limits)
    return size[0] // by, size[1] // by


def _factor(long_px: int, limits: PhotoLimits) -> int:
    return max(by for by in (1, 2, 4, 8) if by == 1 or long_px / by >= SHORT * limits.side_px)


def _plain(image: Image.Image) -> Image.Image:
    """The picture in one of the modes RGB and RGBA."""
    if image.mode.startswith("I;16") or image.mode == "I":
        deep = np.asarray(image)
        return Image.fromarray((deep >> 8).clip(0, 255).astype(np.uint8)).convert("RGB")
    if image.mode in ("RGB", "RGBA"):
        return image
    see_through = image.mode in ("LA", "PA", "La", "RGBa") or "transparency" in image.info
    return image.convert("RGBA" if see_through else "RGB")


def _sized(image: Image.Image, limits: PhotoLimits) -> Bytes:
    by = _factor(max(image.size), limits)
    pixels: Bytes = np.asarray(image.reduce(by) if by > 1 else image)
    height, width = pixels.shape[:2]
    long = max(width, height)
    if long <= SPARE * limits.side_px:
        return pixels
    share = limits.side_px / long
    size = max(1, round(width * share)), max(1, round(height * share))
    return np.asarray(cv2.resize(pixels, size, interpolation=cv2.INTER_AREA), dtype=np.uint8)


def _upright(pixels: Bytes, orientation: int) -> Bytes:
    turned = pixels[:, ::-1] if orientation in MIRRORED else pixels
    return np.ascontiguousarray(np.rot90(turned, -QUARTERS[orientation]))
