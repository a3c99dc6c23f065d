"""Where everything of the bundling stands."""

from __future__ import annotations

from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
WEB = ROOT / "src" / "moldwright" / "web"
PARTS, PAGES = WEB / "parts", WEB / "pages"
BUILT = WEB / "built"
MODULES = ROOT / "node_modules"
LOCK = ROOT / "package-lock.json"


class BundlingFailed(Exception):
    """The pages could not be made; the sentence says why and what helps."""
