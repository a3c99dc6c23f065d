"""The desk served: its door opened, its address told, until it is stopped."""

from __future__ import annotations

import asyncio
import socket
import ssl
import sys
from collections.abc import Callable, Sequence
from tempfile import TemporaryFile

import uvicorn

from moldwright.errors import InputRefused
from moldwright.records.shop import open_shop
from moldwright.web.app import create_app
from moldwright.web.doors.https import TlsFiles, tls_files, utc_now
from moldwright.web.settings import Settings

USUAL_PORT = 8477
"""Our own; registered for nothing else that we know of."""
LAST_S = 5
"""How long answers under way may take once it is to stop."""
HERE_ALONE, EVERYWHERE = ("127.0.0.1",), ("0.0.0.0", "::")
LOOKED_AT_EVERY_S = 12 * 3600.0
"""How often a desk that stays open looks whether its certificate ends soon."""
TURN_S = 0.0005
"""How long one answer is worked on while another waits. The interpreter's own 5 ms let a press wait at each of its
steps behind what is told far ahead: p95 of 30 tablets was 640 to 680 ms, and is 190 to 220
(`python -m benchmarks desk`)."""


def serve(settings: Settings, port: int, ready: Callable[[str], None]) -> None:
    """Serve the desk until the process is told to stop.

    Parameters
    ----------
    settings : where the records lie, who may come in.
    port : the port, 0 for any free one.
    ready : is given the site's address for a browser of this machine, once it listens.

    Raises InputRefused ("port-taken", and as `tls_files`).
    """
    files = tls_files(settings.data, settings.hosts, utc_now()) if settings.secure else None
    listening = listening_at(EVERYWHERE if settings.lan else HERE_ALONE, port)
    scheme = "https" if settings.secure else "http"
    address = f"{scheme}://{settings.hosts[0]}:{listening[0].getsockname()[1]}/"
    sys.setswitchinterval(TURN_S)
    server = _Server(settings, files, lambda: ready(address))
    server.run(sockets=listening)


def refuse_unusable(settings: Settings) -> None:
    """Refuse a data folder that cannot be written and a store that cannot be opened, before anything listens.

    Parameters
    ----------
    settings : where they lie.

    Raises InputRefused ("data-unwritable"), and as `records.shop.open_shop`.
    """
    try:
        settings.data.mkdir(parents=True, exist_ok=True)
        with TemporaryFile(dir=settings.data):
            pass
    except OSError as error:
        remedy = "Look at who owns it and whether the disk is full, or name another folder: --data DIR."
        told = f"{settings.data}: {error.strerror}"
        raise InputRefused("data-unwritable", told, "a folder that you may write to", "", remedy) from None
    open_shop(settings.shop, settings.files).close()


def listening_at(addresses: Sequence[str], port: int) -> list[socket.socket]:
    """Sockets that listen at one port of each address; an address of IPv6 is left out on a machine that knows none.

    Parameters
    ----------
    addresses : the first must be had.
    port : the port, 0 for any free one.

    Raises InputRefused ("port-taken").
    """
    first = _listening(addresses[0], port)
    made = [first]
    for other in addresses[1:]:
        try:
            made.append(_listening(other, first.getsockname()[1]))
        except InputRefused:
            continue
    return made


def _listening(host: str, port: int) -> socket.socket:
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    made: socket.socket | None = None
    try:
        made = socket.socket(family)
        made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        if family == socket.AF_INET6:
            made.setsockopt(socket.IPPROTO_IPV6, socket.IPV6_V6ONLY, 1)
        made.bind((host, port))
    except OSError as error:
        if made is not None:
            made.close()
        remedy = "Is the desk open already? Look at its address in a browser, or choose another port: --port 8478."
        raise InputRefused("port-taken", f"{host}:{port}", error.strerror, "", remedy) from None
    return made


class _Server(uvicorn.Server):
    """Tells when it listens; takes a new certificate while it does."""

    def __init__(self, settings: Settings, files: TlsFiles | None, ready: Callable[[], None]) -> None:
        config = uvicorn.Config(
            create_app(settings),
            log_level="warning",
            access_log=False,
            server_header=False,
            proxy_headers=False,
            timeout_graceful_shutdown=LAST_S,
            ws="none",
            ssl_certfile=files.certificate if files else None,
            ssl_keyfile=files.key if files else None,
        )
        super().__init__(config)
        self._ready, self._settings = ready, settings
        self._renewing: asyncio.Task[None] | None = None

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        if self.config.ssl is not None:
            self._renewing = asyncio.create_task(renewing(self._settings, self.config.ssl))
        if self.started:
            self._ready()


async def renewing(settings: Settings, context: ssl.SSLContext, every_s: float = LOOKED_AT_EVERY_S) -> None:
    """Have who calls next see a certificate that does not end soon, for as long as the desk is open.

    Parameters
    ----------
    settings : of the desk.
    context : by which it answers.
    every_s : how often it is looked at [s].
    """
    while True:
        await asyncio.sleep(every_s)
        files = await asyncio.to_thread(tls_files, settings.data, settings.hosts, utc_now())
        context.load_cert_chain(files.certificate, files.key)
