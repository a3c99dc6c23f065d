"""A shop that is open at the desk: its records, its folder of this machine, its long work; the shop's own, and one to
try the desk in, which is thrown away."""

from __future__ import annotations

import logging
import secrets
import shutil
import threading
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path

from fastapi import Request

from moldwright.errors import MoldwrightError
from moldwright.records.shop import Shop, open_shop
from moldwright.web.long_work.queue import WorkQueue
from moldwright.web.long_work.settle import settling
from moldwright.web.settings import Settings
from moldwright.web.trying import trying

TRIAL = "trial"
"""The folder of the shop to try the desk in."""
log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Inside:
    """One shop that is open; `id`: of its store."""

    settings: Settings
    shop: Shop
    work: WorkQueue
    id: str

    def close(self) -> None:
        """End its work and let go of its records."""
        self.work.close()
        self.shop.close()


def opened_inside(settings: Settings) -> Inside:
    """Open a shop, and go on with what waits there.

    Parameters
    ----------
    settings : where its records lie.
    """
    settings.data.mkdir(parents=True, exist_ok=True)
    shop = open_shop(settings.shop, settings.files)
    work = WorkQueue(settings.data / "work", settling(shop, settings))
    work.open()
    return Inside(settings, shop, work, shop.id())


class Insides:
    """The shop's own, and the one to try, where there is one.

    Parameters
    ----------
    settings : of the shop's own.
    """

    def __init__(self, settings: Settings) -> None:
        self.own = opened_inside(settings)
        self._lock = threading.Lock()
        self.trial = _trial_left(settings)

    def of(self, request: Request) -> Inside:
        """The one that a device is in.

        Parameters
        ----------
        request : from it.
        """
        trial = self.trial
        return trial if trial is not None and trying(request) else self.own

    def begin_trial(self) -> Inside:
        """The shop to try the desk in, made where there is none."""
        with self._lock:
            if self.trial is None:
                self.trial = opened_inside(trial_settings(self.own.settings))
            return self.trial

    def end_trial(self) -> None:
        """Throw it away, with all that lies in it."""
        with self._lock:
            trial, self.trial = self.trial, None
            if trial is not None:
                trial.close()
            _thrown_away(_trial_folder(self.own.settings))

    def close(self) -> None:
        """Close both."""
        for each in (self.trial, self.own):
            if each is not None:
                each.close()


def _trial_left(settings: Settings) -> Inside | None:
    """The one that was there when the desk was closed; what cannot be opened is thrown away: nothing in it counts."""
    folder = _trial_folder(settings)
    if not folder.is_dir():
        return None
    try:
        return opened_inside(trial_settings(settings))
    except MoldwrightError:
        log.warning("the shop to try the desk in could not be opened, and is thrown away", exc_info=True)
        _thrown_away(folder)
        return None


def _thrown_away(folder: Path) -> None:
    """Out of its place in one step, so that the next one never finds half of it there."""
    gone = folder.with_name(f".{folder.name}.{secrets.token_hex(8)}.gone")
    with suppress(OSError):
        folder.replace(gone)
    for left in folder.parent.glob(f".{folder.name}.*.gone"):
        shutil.rmtree(left, ignore_errors=True)


def trial_settings(settings: Settings) -> Settings:
    """Where the records of the shop to try lie: in a folder of its own, never beside those of the shop.

    Parameters
    ----------
    settings : of the shop's own.
    """
    folder = _trial_folder(settings)
    return replace(settings, shop=str(folder / "shop.db"), files=None, data=folder)


def insides_of(request: Request) -> Insides:
    """All that is open.

    Parameters
    ----------
    request : any.
    """
    found: Insides = request.app.state.insides
    return found


def _trial_folder(settings: Settings) -> Path:
    return settings.data / TRIAL
