"""The guard at the door: every call passes it before any route is looked for.

A call under a host's name that is not this desk's is refused (a page elsewhere could have its name point here), and so
is an act that another site asks for. On the machine itself whoever sits there is the owner; whoever calls from another
device is nobody until they are signed in, and gets no further than the door.
"""

from __future__ import annotations

from collections.abc import Collection

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from moldwright.errors import InputRefused, MoldwrightError
from moldwright.web.assets import URL
from moldwright.web.doors.body import bounded
from moldwright.web.doors.calls import SAFE, from_here, led_here, other_site, unknown_host
from moldwright.web.doors.cookie import cookie_name, cookie_text
from moldwright.web.doors.doors import Doors
from moldwright.web.doors.secrets import same, token_of
from moldwright.web.doors.state import CameBy
from moldwright.web.doors.visitor import Role, Visitor
from moldwright.web.errors import told
from moldwright.web.render import page
from moldwright.web.settings import Settings

TOKEN = "x-token"


class Guard:
    """Refuses strangers; puts the visitor into `request.state.visitor`.

    Parameters
    ----------
    app : what it guards.
    settings : of the desk.
    doors : who is signed in.
    open_paths : what may be called without being signed in.
    """

    def __init__(self, app: ASGIApp, settings: Settings, doors: Doors, open_paths: Collection[str]) -> None:
        self.app, self.settings, self.doors, self.open_paths = app, settings, doors, frozenset(open_paths)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
        elif scope["type"] == "http":
            await self._passed(Request(scope, receive), scope, bounded(scope, receive), send)

    async def _passed(self, request: Request, scope: Scope, receive: Receive, send: Send) -> None:
        request.state.visitor, new = None, ""
        try:
            early, new = await self._looked_at(request)
        except MoldwrightError as refused:
            early = told(request, refused)
        await (early or self.app)(scope, receive, self._keeping(request, new, send) if new else send)

    async def _looked_at(self, request: Request) -> tuple[Response | None, str]:
        """An answer where none of the app's is due, and the secret of a session that begins with this call."""
        refused = unknown_host(request, self.settings) or other_site(request, self.settings)
        if refused is not None:
            raise refused
        if led_here(request):
            return page(request, "templates/again.html", {"again": str(request.url)}), ""
        new = await self._known(request)
        if request.state.visitor is None and not self._is_open(request):
            raise InputRefused("not-signed-in", "nobody", "somebody who is signed in", "", "Sign in first.")
        if request.method not in SAFE:
            self._refuse_without_token(request)
        return None, new

    async def _known(self, request: Request) -> str:
        """Finds who calls; returns the secret of a session that begins with that."""
        here = from_here(request, self.settings)
        secret = request.cookies.get(cookie_name(request, self.settings), "")
        session = self.doors.sessions.of(secret) if secret else None
        if session is not None and (here or session.way is not CameBy.MACHINE):
            request.state.visitor = Visitor(
                session.role, session.device, session.by, token_of(secret), session.name, here
            )
            if self.doors.sessions.is_stale(session):
                await run_in_threadpool(self.doors.sessions.seen, session.name)
            return ""
        if here and _opens_a_page(request):
            return await self._begun_here(request)
        request.state.visitor = Visitor(Role.OWNER, self.settings.bench, here=True) if here else None
        return ""

    async def _begun_here(self, request: Request) -> str:
        begin = self.doors.sessions.begin
        secret = await run_in_threadpool(begin, Role.OWNER, self.settings.bench, CameBy.MACHINE)
        session = self.doors.sessions.of(secret)
        assert session is not None
        request.state.visitor = Visitor(session.role, session.device, "", token_of(secret), session.name, here=True)
        return secret

    def _is_open(self, request: Request) -> bool:
        return request.url.path in self.open_paths or request.url.path.startswith(f"{URL}/")

    def _refuse_without_token(self, request: Request) -> None:
        """Who is nobody yet has none: only signing in and joining are open to them, and those take no other site's."""
        visitor: Visitor | None = request.state.visitor
        if visitor is None or (visitor.token and same(request.headers.get(TOKEN, ""), visitor.token)):
            return
        remedy = "Reload the page and do it again."
        raise InputRefused("token-missing", "an act without this session's token", "one with it", "", remedy)

    def _keeping(self, request: Request, secret: str, send: Send) -> Send:
        text = cookie_text(cookie_name(request, self.settings), secret, self.settings)

        async def sending(message: Message) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message["headers"], (b"set-cookie", text.encode())]
            await send(message)

        return sending


def _opens_a_page(request: Request) -> bool:
    """A browser that opens a page, and no script that asks for something."""
    path = request.url.path
    asks = request.method == "GET" and "text/html" in request.headers.get("accept", "")
    return asks and not path.startswith(("/api/", f"{URL}/"))
