"""An untrusted scan: read by a bounded child process, mended in what is certain, told as triangles in its own units."""

from __future__ import annotations

from moldwright.scan.limits import Limits
from moldwright.scan.read import read_with_hash
from moldwright.scan.repairs import Repair, RepairCode
from moldwright.scan.scan import Scan

__all__ = ["Limits", "Repair", "RepairCode", "Scan", "read_with_hash"]
