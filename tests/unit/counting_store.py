"""A store that knows what was put."""

from __future__ import annotations

from typing import Any

from moldwright.store.memory import MemoryStore


class CountingStore(MemoryStore):
    def __init__(self) -> None:
        super().__init__()
        self.made: list[str] = []

    def put(self, key: str, value: Any) -> None:
        self.made.append(key.partition("-")[0])
        super().put(key, value)
