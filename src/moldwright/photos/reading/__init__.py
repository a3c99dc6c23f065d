"""Untrusted photos, decoded by a bounded child process to arrays at a working size."""

from __future__ import annotations

from moldwright.photos.reading.photo import Photo, Photos

__all__ = ["Photo", "Photos"]
