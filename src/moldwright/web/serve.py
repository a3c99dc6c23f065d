"""The desk served: its door opened, its address told, until it is stopped."""

from __future__ import annotations

import socket
from collections.abc import Callable

import uvicorn

from moldwright.errors import InputRefused
from moldwright.web.app import create_app
from moldwright.web.settings import Settings

USUAL_PORT = 8477
"""Our own; registered for nothing else that we know of."""
LAST_S = 5
"""How long answers under way may take once it is to stop."""


def serve(settings: Settings, host: str, port: int, ready: Callable[[str], None]) -> None:
    """Serve the desk until the process is told to stop.

    Parameters
    ----------
    settings : where the records lie, who may come in.
    host : the address that it listens at.
    port : the port, 0 for any free one.
    ready : is given the address for a browser, once it listens.

    Raises InputRefused ("port-taken").
    """
    listening = _listening(host, port)
    scheme = "https" if settings.secure else "http"
    address = f"{scheme}://{settings.hosts[0]}:{listening.getsockname()[1]}/"
    server = _Server(create_app(settings), lambda: ready(address))
    server.run(sockets=[listening])


def _listening(host: str, port: int) -> socket.socket:
    made = socket.socket(socket.AF_INET6 if ":" in host else socket.AF_INET)
    made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        made.bind((host, port))
    except OSError as error:
        made.close()
        remedy = "Is the desk open already? Look at its address in a browser, or choose another port: --port 8478."
        raise InputRefused("port-taken", f"{host}:{port}", error.strerror, "", remedy) from None
    return made


class _Server(uvicorn.Server):
    """Tells when it listens."""

    def __init__(self, app: object, ready: Callable[[], None]) -> None:
        config = uvicorn.Config(
            app,  # type: ignore[arg-type]
            log_level="warning",
            access_log=False,
            server_header=False,
            timeout_graceful_shutdown=LAST_S,
            ws="none",
        )
        super().__init__(config)
        self._ready = ready

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        if self.started:
            self._ready()
