"""The piece to copy: an untrusted scan is read, mended in what is certain, scaled and stood on the board."""

from __future__ import annotations

from moldwright.original.limits import Limits
from moldwright.original.place import place
from moldwright.original.read import read_scan
from moldwright.original.scan import Finding, Placed, Scan

__all__ = ["Finding", "Limits", "Placed", "Scan", "place", "read_scan"]
