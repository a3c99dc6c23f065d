"""The shelf as a table."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from moldwright.records.stock.shelf import OnShelf
from moldwright.told.csv_text import Cell
from moldwright.told.lot_words import shelf_tree

LOT_HEADS = (
    "code", "kind", "material", "name", "number", "left", "unit", "state", "expires", "opened", "stored", "supplier",
    "received", "amount", "over", "id",
)  # fmt: skip
"""Of the table, in its order."""


def lot_cells(shelves: Iterable[OnShelf]) -> list[Sequence[Cell]]:
    """Lots as rows of a table.

    Parameters
    ----------
    shelves : the lots, in their order.
    """
    return [[tree[name] for name in LOT_HEADS] for tree in map(shelf_tree, shelves)]
