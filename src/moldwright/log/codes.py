"""How an id stands on a label: what its square code holds, and the short code that people read and type."""

from __future__ import annotations

URN = "urn:uuid:"
"""What a printed code holds before the id (RFC 9562, 4)."""
CODE_LENGTH = 8
"""Digits of a short code."""


def urn_of(id_: str) -> str:
    """What the square code of a label or a certificate holds.

    Parameters
    ----------
    id_ : a UUID.

    >>> urn_of("017f22e2-79b0-7cc3-98c4-dc0c0c07398f")
    'urn:uuid:017f22e2-79b0-7cc3-98c4-dc0c0c07398f'
    """
    return f"{URN}{id_}"


def short_code(id_: str) -> str:
    """The last eight digits of an id, as labels print it and people type it.

    Parameters
    ----------
    id_ : a UUID.

    >>> short_code("017f22e2-79b0-7cc3-98c4-dc0c0c07398f")
    '0C07-398F'
    """
    last = id_[-CODE_LENGTH:].upper()
    return f"{last[:4]}-{last[4:]}"
