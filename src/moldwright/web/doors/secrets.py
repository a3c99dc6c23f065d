"""Secrets by which a session is known: what the browser holds, what is kept of it, what its acts carry."""

from __future__ import annotations

import hmac
import secrets
from hashlib import sha256

SECRET_BYTES = 32
"""256 bits of chance; a session needs 64 at least (OWASP Session Management, from memory)."""
NAME_BYTES = 9


def new_secret() -> str:
    """What a browser holds in its cookie and nobody can guess."""
    return secrets.token_urlsafe(SECRET_BYTES)


def new_name() -> str:
    """What a session is called where it is listed; it opens nothing."""
    return secrets.token_hex(NAME_BYTES)


def hash_of_secret(secret: str) -> str:
    """What is kept of a secret: who reads the file cannot come in by it. It has no salt, for chance needs none.

    Parameters
    ----------
    secret : a session's or an invitation's.
    """
    return sha256(secret.encode(errors="replace")).hexdigest()


def token_of(secret: str) -> str:
    """What a session's acts carry beside its cookie: bound to it, and of no use to find it (RFC 2104, HMAC).

    Parameters
    ----------
    secret : the session's.
    """
    return hmac.new(secret.encode(), b"acts of this session", sha256).hexdigest()


def same(one: str, other: str) -> bool:
    """Whether two secrets are the same, told in a time that says nothing of where they differ.

    Parameters
    ----------
    one, other : any texts.
    """
    return hmac.compare_digest(one.encode(errors="replace"), other.encode(errors="replace"))
