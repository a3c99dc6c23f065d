"""Debian's Chromium, as every test in a browser starts it."""

from __future__ import annotations

import os
import shutil

CHROMIUM = os.environ.get("MOLDWRIGHT_CHROMIUM") or shutil.which("chromium") or "/usr/bin/chromium"
LAUNCH = {"executable_path": CHROMIUM, "args": ["--no-sandbox", "--force-color-profile=srgb"]}
