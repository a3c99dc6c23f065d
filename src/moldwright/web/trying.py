"""Whether a device is in the shop to try the desk in; known before anything is open."""

from __future__ import annotations

from fastapi import Request

COOKIE = "trying"
"""Of a device that is in it: the id of its store. It chooses between the two shops that are open, and nothing else; a
device that was in one that is thrown away is not in the next that somebody begins."""


def trying(request: Request) -> bool:
    """Whether a device is in the shop to try, and there is one.

    Parameters
    ----------
    request : from it.
    """
    insides = getattr(request.app.state, "insides", None)
    trial = getattr(insides, "trial", None)
    return trial is not None and request.cookies.get(COOKIE) == trial.id
