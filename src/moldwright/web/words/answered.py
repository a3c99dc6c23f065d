"""Every answer in its reader's language: the speaker is set before anything of a call is looked at."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from starlette.requests import HTTPConnection
from starlette.types import ASGIApp, Receive, Scope, Send

from moldwright.web.reader import language_of, units_of
from moldwright.web.words.measured import measured
from moldwright.web.words.said import speaker_of
from moldwright.words.speaker import ENGLISH, Speaker, spoken_by

SAVED = (".pdf", ".csv")
"""Paper and tables: their own forms are in English, whoever reads them."""


class Answered:
    """A part of the desk's way in.

    Parameters
    ----------
    app : what answers.
    """

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer.

        Parameters
        ----------
        scope, receive, send : of ASGI.
        """
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        with spoken_by(_speaker(HTTPConnection(scope))):
            await self.app(scope, receive, send)


def _speaker(call: HTTPConnection) -> Speaker:
    if call.url.path.endswith(SAVED):
        return ENGLISH
    return replace(speaker_of(language_of(call)), measured=partial(measured, units_of(call)))
