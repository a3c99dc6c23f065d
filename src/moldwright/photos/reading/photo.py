"""A photo that was read: upright, at its working size, kept in a temporary folder until the reading is closed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from types import TracebackType

import numpy as np
import numpy.typing as npt

from moldwright.photos.told import PhotoTold

Pixels = npt.NDArray[np.uint8]
Mask = npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Photo:
    """One photo, upright at its working size.

    `quarters` : quarter turns clockwise that stood it upright from how the sensor lay; `focal_35mm` : focal length in
    terms of 36 x 24 mm film where the camera wrote it [mm]; `sha256` : of the bytes that it was decoded from.
    `pixels`, `masked` : where the decoded arrays are, for `rgb` and `mask`.
    """

    file: str
    width_px: int
    height_px: int
    quarters: int
    focal_35mm: float | None
    sha256: str
    pixels: Path
    masked: Path | None = None

    def rgb(self) -> Pixels:
        """Its pixels, (height, width, 3), mapped into memory as they are touched; drop the array to free them."""
        pixels: Pixels = np.load(self.pixels, mmap_mode="r", allow_pickle=False)
        return pixels

    def mask(self) -> Mask | None:
        """Where the piece is by the maker's own mask, (height, width), or None where there is none."""
        if self.masked is None:
            return None
        mask: Mask = np.load(self.masked, mmap_mode="r", allow_pickle=False)
        return mask


@dataclass(frozen=True, slots=True, eq=False)
class Photos:
    """All photos of a folder that could be read, by name; close it (or use `with`) to give their files back.

    `told` : those that are not used, with the reason; `sha256` : of all bytes read, as `content_of` tells beforehand.
    """

    photos: tuple[Photo, ...]
    told: tuple[PhotoTold, ...]
    sha256: str
    folder: TemporaryDirectory[str]

    def __iter__(self) -> Iterator[Photo]:
        return iter(self.photos)

    def __len__(self) -> int:
        return len(self.photos)

    def close(self) -> None:
        """Remove the decoded arrays."""
        self.folder.cleanup()

    def __enter__(self) -> Photos:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self.close()
