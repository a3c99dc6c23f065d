"""`moldwright look FOLDER --watch`: what is still missing, told anew as photos arrive."""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

from moldwright.desk.say import say
from moldwright.making.looking.arriving import Watched
from moldwright.sheets.photo_words import photo_words
from moldwright.text.harmless import harmless

PAUSE_S = 1.0
"""How long a file must have kept its size before it is read: a phone's copy takes a moment."""


def watch(folder: Path, wait: Callable[[float], None] = time.sleep) -> None:
    """Tell what arrives and what is missing until Ctrl-C.

    Parameters
    ----------
    folder : where the photos arrive.
    wait : waits between two looks [s].
    """
    watched = Watched(folder)
    say(photo_words()["look"]["watch"].format(folder=harmless(str(folder))), to_stderr=True)
    try:
        while True:
            told = watched.turn()
            if told:
                say(told)
            wait(PAUSE_S)
    finally:
        watched.close()
