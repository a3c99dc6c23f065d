"""A process bounds its own memory, time and files, where the system can."""

from __future__ import annotations

import contextlib

from moldwright.scan.limits import Limits

try:
    import resource
except ImportError:  # pragma: no cover - systems without POSIX limits keep the clock's limit alone
    resource = None  # type: ignore[assignment]


def bound_process(limits: Limits) -> None:
    """Set this process's limits; they cannot be raised again.

    Parameters
    ----------
    limits : memory [bytes] and processor time [s] of this process.
    """
    if resource is None:
        return
    _bound(resource.RLIMIT_AS, limits.memory_bytes)
    _bound(resource.RLIMIT_CPU, limits.cpu_s, spare=2)
    _bound(resource.RLIMIT_CORE, 0)


def _bound(kind: int, most: int, spare: int = 0) -> None:
    _, hard = resource.getrlimit(kind)
    most = most if hard == resource.RLIM_INFINITY else min(most, hard)
    with contextlib.suppress(ValueError, OSError):
        resource.setrlimit(kind, (most, most + spare if hard == resource.RLIM_INFINITY else hard))
