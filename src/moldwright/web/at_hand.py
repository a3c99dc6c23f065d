"""What a route has at hand: the open store, the settings, the clock of the device that calls."""

from __future__ import annotations

from typing import Annotated

from anyio import CapacityLimiter
from fastapi import Depends, Request

from moldwright.records.clock import BenchClock
from moldwright.records.shop import Shop
from moldwright.web.doors.doors import Doors
from moldwright.web.inside import Inside, insides_of
from moldwright.web.long_work.queue import WorkQueue
from moldwright.web.reader import DeskReader, reader_of
from moldwright.web.settings import Settings


def _inside(request: Request) -> Inside:
    return insides_of(request).of(request)


def _shop(request: Request) -> Shop:
    return _inside(request).shop


def _settings(request: Request) -> Settings:
    return _inside(request).settings


def _of_desk(request: Request) -> Settings:
    found: Settings = request.app.state.settings
    return found


def _work(request: Request) -> WorkQueue:
    return _inside(request).work


def _doors(request: Request) -> Doors:
    found: Doors = request.app.state.doors
    return found


def _clock(request: Request) -> BenchClock:
    """Ids and times for what the server writes for whoever calls; they go on from the newest of that device."""
    shop, visitor = _shop(request), request.state.visitor
    bench = visitor.device if visitor is not None else _settings(request).bench
    return BenchClock(bench, visitor.by if visitor is not None else "", last_ms=shop.last_ms(bench))


def far_limit(request: Request) -> CapacityLimiter:
    """One at a time: what is told far ahead takes a tenth of a second, and no press shall wait for several of them.

    Parameters
    ----------
    request : any.
    """
    found: CapacityLimiter = request.app.state.far_limit
    return found


OpenShop = Annotated[Shop, Depends(_shop)]
Told = Annotated[Settings, Depends(_settings)]
OfDesk = Annotated[Settings, Depends(_of_desk)]
"""Those of the desk itself, whichever shop a device is in."""
Clock = Annotated[BenchClock, Depends(_clock)]
AtDoor = Annotated[Doors, Depends(_doors)]
LongWork = Annotated[WorkQueue, Depends(_work)]
Reading = Annotated[DeskReader, Depends(reader_of)]
