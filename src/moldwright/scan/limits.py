"""How much an untrusted scan may ask of the machine."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Limits:
    """Bounds of the child process that reads a scan (common practice, no source).

    Parameters
    ----------
    triangles : most triangles a scan may have after every copy in it is laid out.
    file_bytes : largest file [bytes].
    memory_bytes : address space of the child [bytes].
    cpu_s : processor time of the child [s].
    wall_s : time on the clock until the child is ended [s].
    archive_entries : most files in an archive.
    archive_bytes : most bytes an archive may unpack to [bytes].
    archive_ratio : most bytes unpacked for one byte packed, for entries above 1 MB.
    """

    triangles: int = 20_000_000
    file_bytes: int = 4 << 30
    memory_bytes: int = 12 << 30
    cpu_s: int = 240
    wall_s: float = 300.0
    archive_entries: int = 2_000
    archive_bytes: int = 4 << 30
    archive_ratio: float = 200.0
