"""From light to a phone's JPEG: blur, exposure, white balance, noise, sharpening, compression."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import cv2
import numpy as np
import numpy.typing as npt
from PIL import Image

Floats = npt.NDArray[np.float32]
FOCAL_35, FOCAL_MM, TURN = 0xA405, 0x920A, 0x0112
EXIF_BLOCK = 0x8769
GPS_BLOCK = 0x8825
UPRIGHT, QUARTER = 1, 6


@dataclass(frozen=True, slots=True)
class Film:
    """How one photo comes out.

    `exposure` : gain; `balance` : of red and blue; `noise` : of the sensor, share; `soft_px` : spread of a point [px];
    `smear_px` : length and way [rad] of a hand's movement [px]; `sharpen` : the phone's own.
    """

    exposure: float = 1.0
    balance: tuple[float, float] = (1.0, 1.0)
    noise: float = 0.012
    soft_px: float = 0.55
    smear_px: tuple[float, float] = (0.4, 0.0)
    sharpen: float = 0.25
    quality: int = 88


_TO_LINEAR = np.where(
    np.arange(256) <= 10, np.arange(256) / 255 / 12.92, ((np.arange(256) / 255 + 0.055) / 1.055) ** 2.4
).astype(np.float32)
_STEPS = 4095
_TO_CODE = np.linspace(0, 1, _STEPS + 1)
_TO_CODE = (255 * np.where(_TO_CODE <= 0.0031308, _TO_CODE * 12.92, 1.055 * _TO_CODE ** (1 / 2.4) - 0.055)).astype(
    np.float32
)


def linear(code: npt.NDArray[np.uint8]) -> Floats:
    """Linear light of sRGB codes (IEC 61966-2-1)."""
    return np.asarray(cv2.LUT(code, _TO_LINEAR))


def coded(light: Floats) -> Floats:
    """SRGB codes 0..255 of linear light 0..1, not rounded."""
    return _TO_CODE[(np.clip(light, 0, 1) * _STEPS + 0.5).astype(np.int16)]


def exposed(light: Floats, film: Film, rng: np.random.Generator) -> npt.NDArray[np.uint8]:
    """The picture as the phone writes it, from linear light (h, w, 3)."""
    h, w = light.shape[:2]
    x, y = np.linspace(-1, 1, w, dtype=np.float32) * w / h, np.linspace(-1, 1, h, dtype=np.float32)
    falling = 1 - 0.09 * (x[None, :] ** 2 + y[:, None] ** 2)
    gain = np.array([film.balance[0], 1.0, film.balance[1]], dtype=np.float32) * np.float32(film.exposure)
    got = light * falling[..., None] * gain
    grain = rng.standard_normal((h, w, 3), dtype=np.float32)
    got += grain * np.float32(film.noise) * np.sqrt(np.maximum(got, 0) * np.float32(0.18) + np.float32(0.001))
    code = coded(got)
    smooth = cv2.GaussianBlur(code, (0, 0), 1.0)
    return np.clip(code + np.float32(film.sharpen) * (code - smooth) + np.float32(0.5), 0, 255).astype(np.uint8)


def smeared(light: Floats, film: Film, over: float) -> Floats:
    """Light as the lens and the hand spread it, on a frame with `over` dots per pixel of the photo."""
    got = cv2.GaussianBlur(light, (0, 0), max(film.soft_px * over, 0.3))
    length = film.smear_px[0] * over
    if length < 1:
        return np.asarray(got)
    half = int(np.ceil(length / 2)) + 1
    kernel = np.zeros((2 * half + 1, 2 * half + 1), dtype=np.float32)
    for t in np.linspace(-length / 2, length / 2, 8 * half + 1):
        _drop(kernel, half + t * np.cos(film.smear_px[1]), half + t * np.sin(film.smear_px[1]))
    return np.asarray(cv2.filter2D(got, -1, kernel / kernel.sum()))


def _drop(kernel: Floats, x: float, y: float) -> None:
    """A point shared out among the four cells round it."""
    i, j = int(np.floor(y)), int(np.floor(x))
    for di, wy in ((0, 1 - (y - i)), (1, y - i)):
        for dj, wx in ((0, 1 - (x - j)), (1, x - j)):
            kernel[i + di, j + dj] += wy * wx


def write_jpeg(picture: npt.NDArray[np.uint8], path: Path, film: Film, focal_35_mm: float | None, turned: bool) -> None:
    """Write a photo; `turned` stores it lying on its side with an orientation mark, as phones do."""
    image = Image.fromarray(np.rot90(picture) if turned else picture)
    exif = Image.Exif()
    exif[TURN] = QUARTER if turned else UPRIGHT
    if focal_35_mm is not None:
        exif.get_ifd(EXIF_BLOCK)[FOCAL_35] = round(focal_35_mm)
    image.save(path, quality=film.quality, exif=exif)
