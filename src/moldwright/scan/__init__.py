"""An untrusted scan: read by a bounded child process, mended in what is certain, told as triangles in its own units."""

from __future__ import annotations

from moldwright.scan.limits import Limits
from moldwright.scan.read import read_scan
from moldwright.scan.scan import Finding, Placed, Scan

__all__ = ["Finding", "Limits", "Placed", "Scan", "read_scan"]
