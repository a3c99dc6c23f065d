"""By what other devices reach this machine: its addresses and its names."""

from __future__ import annotations

import socket
from contextlib import suppress

ELSEWHERE = ((socket.AF_INET, "192.0.2.1"), (socket.AF_INET6, "2001:db8::1"))
"""Addresses of nobody (RFC 5737, RFC 3849). Nothing is sent: the system only tells by which of its own it would."""


def machine_addresses() -> tuple[str, ...]:
    """Addresses of this machine in its network, as they stand in a browser's address line; none without one."""
    found = [_own_address(family, far) for family, far in ELSEWHERE]
    with suppress(OSError):
        told = socket.getaddrinfo(socket.gethostname(), None, type=socket.SOCK_STREAM)
        found += [str(each[4][0]) for each in told]
    kept = dict.fromkeys(each for each in found if each and not each.startswith(("127.", "::1", "fe80:")))
    return tuple(f"[{each}]" if ":" in each else each for each in kept)


def machine_names() -> tuple[str, ...]:
    """Names of this machine; the last is by which others find it without a server of names (RFC 6762, 3)."""
    name = socket.gethostname().lower().rstrip(".")
    short = name.partition(".")[0]
    usable = [each for each in (name, f"{short}.local") if each.replace("-", "").replace(".", "").isalnum()]
    return tuple(dict.fromkeys(each for each in usable if not each.startswith("localhost")))


def _own_address(family: socket.AddressFamily, far: str) -> str:
    try:
        with socket.socket(family, socket.SOCK_DGRAM) as probe:
            probe.connect((far, 9))
            return str(probe.getsockname()[0])
    except OSError:
        return ""
