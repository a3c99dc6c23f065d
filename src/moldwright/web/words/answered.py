"""Every answer in its reader's language: the speaker is set before anything of a call is looked at."""

from __future__ import annotations

from starlette.requests import HTTPConnection
from starlette.types import ASGIApp, Receive, Scope, Send

from moldwright.web.reader import language_of
from moldwright.web.words.said import speaker_of
from moldwright.words.speaker import ENGLISH, spoken_by

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
        saved = scope["path"].endswith(SAVED)
        with spoken_by(ENGLISH if saved else speaker_of(language_of(HTTPConnection(scope)))):
            await self.app(scope, receive, send)
