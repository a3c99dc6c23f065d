"""Whether a device is in the shop to try the desk in; known before anything is open."""

from __future__ import annotations

from fastapi import Request

COOKIE = "trying"
"""Of a device that is in it; it chooses between the two shops that are open, and nothing else."""


def trying(request: Request) -> bool:
    """Whether a device is in the shop to try, and there is one.

    Parameters
    ----------
    request : from it.
    """
    insides = getattr(request.app.state, "insides", None)
    return insides is not None and insides.trial is not None and COOKIE in request.cookies
