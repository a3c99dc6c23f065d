"""The register of molds as rows of a list."""

from __future__ import annotations

from collections.abc import Sequence

from moldwright.records.molds.read import MoldKnown
from moldwright.told.csv_text import Cell
from moldwright.told.mold_trees import mold_tree

COLUMNS = (
    "code", "name", "rubber", "state", "drawn", "left_low", "left_likely", "left_high", "next_glove", "begin_by",
    "stored", "editions", "numbers_left", "shrink_pct", "retired", "id",
)  # fmt: skip


def mold_row(known: MoldKnown) -> Sequence[Cell]:
    """A mold under `COLUMNS`.

    Parameters
    ----------
    known : it.
    """
    tree, left = mold_tree(known), known.next.left
    ends = (left.low, left.likely, left.high) if left else (None, None, None)
    told = {
        **tree,
        **dict(zip(("left_low", "left_likely", "left_high"), ends, strict=True)),
        "next_glove": known.next.call.value,
        "begin_by": tree["next_glove"]["begin_by"],
        "editions": ", ".join(each.name for each in known.editions),
        "shrink_pct": known.shrink.likely_pct if known.shrink else None,
    }
    return [told[name] for name in COLUMNS]
