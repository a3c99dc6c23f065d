"""UUIDs of version 7: the time in front, so that ids sort as they were made."""

from __future__ import annotations

from uuid import UUID

RANDOM_BITS = 74
"""Bits of a UUID of version 7 that are neither its time, its version nor its variant."""


def uuid7(at_ms: int, chance: int) -> str:
    """A UUID of version 7 as text.

    Parameters
    ----------
    at_ms : milliseconds since 1970-01-01 UTC, 0 to 2^48 - 1
    chance : 74 bits: 12 above the variant, 62 below

    Source: RFC 9562, 5.7; the example is that of its appendix A.6.

    >>> uuid7(0x017F22E279B0, (0xCC3 << 62) | 0x18C4DC0C0C07398F)
    '017f22e2-79b0-7cc3-98c4-dc0c0c07398f'
    """
    high, low = chance >> 62 & 0xFFF, chance & (1 << 62) - 1
    return str(UUID(int=at_ms << 80 | 0x7 << 76 | high << 64 | 0b10 << 62 | low))


def time_ms(uuid: str) -> int:
    """When a UUID of version 7 was made: milliseconds since 1970-01-01 UTC.

    Parameters
    ----------
    uuid : as text.

    >>> time_ms("017f22e2-79b0-7cc3-98c4-dc0c0c07398f")
    1645557742000
    """
    return UUID(uuid).int >> 80


def is_uuid7(text: str) -> bool:
    """Whether a text is a UUID of version 7 as `uuid7` writes it: lower case, with its hyphens.

    Parameters
    ----------
    text : anything.

    >>> is_uuid7("017f22e2-79b0-7cc3-98c4-dc0c0c07398f"), is_uuid7("017F22E2-79b0-7cc3-98c4-dc0c0c07398f")
    (True, False)
    """
    try:
        read = UUID(text)
    except ValueError:
        return False
    return read.version == 7 and str(read) == text
