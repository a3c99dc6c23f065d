"""Debian's Chromium, as every test in a browser starts it; why there can be none here."""

from __future__ import annotations

import os
import shutil
from pathlib import Path
from typing import Any

from tools.bundling import make, sources

NEEDED = "MOLDWRIGHT_NEED_BROWSER"
"""Set where the absence of a browser, or of the pages, is a failure and no reason to skip."""
CHROMIUM = os.environ.get("MOLDWRIGHT_CHROMIUM") or shutil.which("chromium") or "/usr/bin/chromium"
LAUNCH: dict[str, Any] = {"executable_path": CHROMIUM, "args": ["--no-sandbox", "--force-color-profile=srgb"]}


def lacking() -> str:
    """What a test in a browser needs and is not here, "" if all is."""
    if not Path(CHROMIUM).is_file():
        return "no Chromium: Debian's package `chromium`, or MOLDWRIGHT_CHROMIUM tells where it is"
    if not make.up_to_date(sources.made_from()):
        return "the pages are not bundled from these sources: `make pages` says why"
    return ""
