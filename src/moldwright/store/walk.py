"""One walk over frozen dataclasses: their fields and the types of these."""

from __future__ import annotations

from functools import lru_cache
from typing import Any, get_type_hints


@lru_cache(maxsize=128)
def hints(kind: type) -> dict[str, Any]:
    """The types of a dataclass's fields by name."""
    return get_type_hints(kind)
