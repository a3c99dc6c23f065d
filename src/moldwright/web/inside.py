"""A shop that is open at the desk: its records, its folder of this machine, its long work; the shop's own, and one to
try the desk in, which is thrown away."""

from __future__ import annotations

import shutil
import threading
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path

from fastapi import Request

from moldwright.records.shop import Shop, open_shop
from moldwright.web.long_work.queue import WorkQueue
from moldwright.web.long_work.settle import settling
from moldwright.web.settings import Settings
from moldwright.web.trying import trying

TRIAL = "trial"
"""The folder of the shop to try the desk in."""


@dataclass(frozen=True, slots=True)
class Inside:
    """One shop that is open."""

    settings: Settings
    shop: Shop
    work: WorkQueue

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
    return Inside(settings, shop, work)


class Insides:
    """The shop's own, and the one to try, where there is one.

    Parameters
    ----------
    settings : of the shop's own.
    """

    def __init__(self, settings: Settings) -> None:
        self.own = opened_inside(settings)
        self._lock = threading.Lock()
        self.trial = opened_inside(trial_settings(settings)) if _trial_folder(settings).is_dir() else None

    def of(self, request: Request) -> Inside:
        """The one that a device is in.

        Parameters
        ----------
        request : from it.
        """
        return self.trial if self.trial is not None and trying(request) else self.own

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
            with suppress(OSError):
                shutil.rmtree(_trial_folder(self.own.settings))

    def close(self) -> None:
        """Close both."""
        for each in (self.trial, self.own):
            if each is not None:
                each.close()


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
