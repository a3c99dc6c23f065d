"""No call may send without end: the bytes of its body are counted while they come."""

from __future__ import annotations

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.types import Message, Receive, Scope

from moldwright.errors import InputRefused

USUAL_BYTES = 4_000_000
"""Of what is no file: far more than a tablet's entries of a day (our own)."""
MB = 1_000_000
COUNTED = "body_counted"


class BodyTooLarge(HTTPException):
    """What a call sends is too large; of HTTP, so that it passes whatever reads the body."""

    def __init__(self, sent: int) -> None:
        super().__init__(413)
        self.refusal = too_large(sent, USUAL_BYTES)


def bounded(scope: Scope, receive: Receive) -> Receive:
    """A call's body, refused past its limit with 413 (RFC 9110, 15.5.14).

    Parameters
    ----------
    scope : of the call.
    receive : gives its body.
    """
    got = 0

    async def receiving() -> Message:
        nonlocal got
        message = await receive()
        got += len(message.get("body", b""))
        if got > USUAL_BYTES and not scope.get("state", {}).get(COUNTED):
            raise BodyTooLarge(got)
        return message

    return receiving


def allow(request: Request, most: int) -> None:
    """Let a call send more than is usual: who takes it counts its bytes (`web/doors/uploads.py`).

    Refused at once where it says itself that it will send more than that.

    Parameters
    ----------
    request : the call, before anything of its body is read.
    most : bytes.

    Raises InputRefused ("file-too-large").
    """
    setattr(request.state, COUNTED, True)
    told = request.headers.get("content-length", "")
    if told.isdecimal() and told.isascii() and int(told[:20]) > most:
        raise too_large(int(told[:20]), most)


def too_large(sent: int, most: int) -> InputRefused:
    """The refusal of what is too large.

    Parameters
    ----------
    sent : bytes that were sent, or told.
    most : bytes that are taken.
    """
    remedy = "Make it smaller, or send the part that matters."
    return InputRefused("file-too-large", sent / MB, most / MB, "MB", remedy)
