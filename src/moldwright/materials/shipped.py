"""The data files that come with the package, parsed once."""

from __future__ import annotations

import tomllib
from functools import lru_cache
from importlib.resources import files
from typing import Any

SHEET_FILES = ("rubbers", "resins", "powders", "shells", "coatings", "consumables")


@lru_cache(maxsize=16)
def shipped(name: str) -> dict[str, Any]:
    """The parsed data file of that name.

    Parameters
    ----------
    name : the file's name without its ending.

    >>> "figures" in shipped("schema")
    True
    """
    return tomllib.loads(files("moldwright.materials").joinpath("data", f"{name}.toml").read_text(encoding="utf-8"))
