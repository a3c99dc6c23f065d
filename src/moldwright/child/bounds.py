"""A process bounds its own memory, time and files, where the system can."""

from __future__ import annotations

import contextlib

try:
    import resource
except ImportError:  # pragma: no cover - systems without POSIX limits keep the clock's limit alone
    resource = None  # type: ignore[assignment]


def bound_process(memory_bytes: int, cpu_s: int) -> None:
    """Set this process's limits; they cannot be raised again.

    Parameters
    ----------
    memory_bytes : most address space [bytes].
    cpu_s : most processor time [s].
    """
    if resource is None:
        return
    _bound(resource.RLIMIT_AS, memory_bytes)
    _bound(resource.RLIMIT_CPU, cpu_s, spare=2)
    _bound(resource.RLIMIT_CORE, 0)


def bound_turn(cpu_s: int) -> None:
    """Let the next piece of work take so much processor time, inside what the whole process may take.

    Parameters
    ----------
    cpu_s : most processor time from now on [s].
    """
    if resource is None:
        return
    used = resource.getrusage(resource.RUSAGE_SELF)
    _, hard = resource.getrlimit(resource.RLIMIT_CPU)
    most = int(used.ru_utime + used.ru_stime) + 1 + cpu_s
    resource.setrlimit(resource.RLIMIT_CPU, (most if hard == resource.RLIM_INFINITY else min(most, hard), hard))


def _bound(kind: int, most: int, spare: int = 0) -> None:
    _, hard = resource.getrlimit(kind)
    most = most if hard == resource.RLIM_INFINITY else min(most, hard)
    with contextlib.suppress(ValueError, OSError):
        resource.setrlimit(kind, (most, most + spare if hard == resource.RLIM_INFINITY else hard))
