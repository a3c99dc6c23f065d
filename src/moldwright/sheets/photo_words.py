"""The words of photographs: of their sheet, of the way to take them and of what is told of each."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib import resources
from typing import Any


@cache
def photo_words() -> Mapping[str, Any]:
    """The words by their tables."""
    return tomllib.loads(resources.files("moldwright.sheets").joinpath("photos.toml").read_text("utf-8"))
