"""The desk as an app: its pages, its doors, its answers to what goes wrong."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from anyio import CapacityLimiter
from fastapi import FastAPI
from starlette.middleware.gzip import GZipMiddleware
from starlette.staticfiles import StaticFiles

from moldwright import __version__
from moldwright.errors import ComputationFailed
from moldwright.web.assets import BUILT, URL
from moldwright.web.doors.doors import Doors
from moldwright.web.doors.guard import Guard
from moldwright.web.doors.headers import Headers
from moldwright.web.doors.may import RolesNeeded
from moldwright.web.doors.needs import open_paths, unguarded
from moldwright.web.doors.uploads import sweep
from moldwright.web.errors import refusing
from moldwright.web.inside import Insides
from moldwright.web.page import all_pages
from moldwright.web.settings import Settings
from moldwright.web.words.answered import Answered

ABOUT = "The desk of one shop: pieces, plans, the bench's log, stock, molds, editions, recipes and labels."
PACKED = 4
"""How hard an answer is packed (zlib's levels, RFC 1950): 10 % larger than at 9, in a sixth of the time; our own."""


def create_app(settings: Settings, doors: Doors | None = None) -> FastAPI:
    """The desk, ready to be served; its store is opened when it starts.

    Parameters
    ----------
    settings : where the records lie, who may come in.
    doors : who is signed in; None: as the data folder tells.
    """
    app = FastAPI(
        title="Moldwright",
        version=__version__,
        description=ABOUT,
        lifespan=_open,
        docs_url=None,
        redoc_url=None,
        openapi_url="/api/openapi.json",
    )
    app.state.settings = settings
    app.state.doors = doors or Doors(settings.data)
    for page in all_pages().values():
        app.include_router(page.router)
    if missing := unguarded(app):
        raise ComputationFailed("route-unguarded", ", ".join(missing), "a role on every route", "", "Tell its role.")
    app.state.roles_needed = RolesNeeded(app)
    app.mount(URL, StaticFiles(directory=BUILT, check_dir=False), "built")
    refusing(app)
    app.add_middleware(Guard, settings=settings, doors=app.state.doors, open_paths=open_paths(app))
    app.add_middleware(Answered)
    app.add_middleware(GZipMiddleware, minimum_size=1000, compresslevel=PACKED)
    app.add_middleware(Headers)
    return app


@asynccontextmanager
async def _open(app: FastAPI) -> AsyncIterator[None]:
    settings: Settings = app.state.settings
    sweep(settings.data)
    app.state.insides = Insides(settings)
    app.state.shop = app.state.insides.own.shop
    app.state.far_limit = CapacityLimiter(1)
    try:
        yield
    finally:
        app.state.insides.close()
