"""A new, empty store for a test."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from moldwright.records.shop import Shop, open_shop


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    """An empty store."""
    found = open_shop(str(tmp_path / "shop.db"))
    yield found
    found.close()
