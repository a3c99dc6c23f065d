"""The guard at the door: every call passes it before any route is looked for.

A call under a host's name that is not this desk's is refused (a page elsewhere could have its name point here), and so
is an act that another site asks for. On the machine itself whoever sits there is the owner.
"""

from __future__ import annotations

from starlette.requests import Request
from starlette.types import ASGIApp, Receive, Scope, Send

from moldwright.errors import InputRefused
from moldwright.web.doors.visitor import Role, Visitor
from moldwright.web.errors import told
from moldwright.web.settings import Settings

SAFE = ("GET", "HEAD", "OPTIONS")
"""Methods that change nothing (RFC 9110, 9.2.1)."""


class Guard:
    """Refuses strangers; puts the visitor into `request.state.visitor`."""

    def __init__(self, app: ASGIApp, settings: Settings) -> None:
        self.app, self.settings = app, settings

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        request = Request(scope, receive)
        request.state.visitor = None
        refused = self._refused(request)
        if refused is not None:
            await told(request, refused)(scope, receive, send)
            return
        request.state.visitor = Visitor(Role.OWNER, self.settings.bench)
        await self.app(scope, receive, send)

    def _refused(self, request: Request) -> InputRefused | None:
        host = request.headers.get("host", "")
        name = host.rpartition(":")[0] if host.rpartition(":")[2].isdecimal() and not host.endswith("]") else host
        if name not in self.settings.hosts:
            remedy = "Open the address that the desk printed when it started."
            return InputRefused("host-unknown", name, ", ".join(self.settings.hosts), "", remedy)
        origin = request.headers.get("origin", "")
        if request.method not in SAFE and origin and origin.partition("://")[2] != host:
            return InputRefused("other-site", origin, host, "", "Act on the desk's own pages.")
        return None
