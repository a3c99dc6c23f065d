"""When a wheel is built: the desk's pages are bundled into it, and a wheel that lacks one of their files is refused."""

from __future__ import annotations

import sys
import zipfile
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

EDITABLE = "editable"
INSIDE = "moldwright/web/built/"


class Pages(BuildHookInterface):
    """A checkout that is installed as it stands makes its pages by `make pages` instead."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """The pages made, and named as files that go along although git ignores them."""
        if version == EDITABLE:
            return
        self.reach_tools()
        from tools.bundling import make  # noqa: PLC0415

        make.pages()
        build_data["artifacts"].append("/src/moldwright/web/built/*")

    def finalize(self, version: str, build_data: dict[str, Any], artifact_path: str) -> None:
        """The wheel opened again: every file that its manifest names is in it, and the licenses."""
        if version == EDITABLE:
            return
        self.reach_tools()
        from tools.bundling import manifest, notices, places  # noqa: PLC0415

        with zipfile.ZipFile(artifact_path) as wheel:
            there = {name.removeprefix(INSIDE) for name in wheel.namelist() if name.startswith(INSIDE)}
        told = manifest.read(places.BUILT)
        lacks = sorted({manifest.NAME, notices.NAME, *manifest.named(told)} - there)
        if lacks or not told["scripts"]:
            raise places.BundlingFailed(f"the wheel lacks of its pages: {', '.join(lacks) or 'all scripts'}")

    def reach_tools(self) -> None:
        """The tools of this checkout can be imported."""
        if self.root not in sys.path:
            sys.path.insert(0, str(Path(self.root)))
