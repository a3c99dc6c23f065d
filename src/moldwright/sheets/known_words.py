"""What an original is known by, in a line."""

from __future__ import annotations

from moldwright.plan.original import OriginalPlan, Source

NAMES = {
    Source.SCAN: "scan",
    Source.PHOTOS: "photos",
    Source.TAPE: "tape",
    Source.WATER: "water",
    Source.WEIGHT: "weight",
}


def known_by(original: OriginalPlan) -> str:
    """What gave its form and what else was measured; "" where it was scanned and nothing else told.

    Parameters
    ----------
    original : of the plan.
    """
    if original.source is Source.SCAN and not original.also:
        return ""
    used = sum(photo.used for photo in original.photos)
    counted = f"{used} of {len(original.photos)} " if original.photos else ""
    return " + ".join([f"{counted}{NAMES[original.source]}", *(NAMES[source] for source in original.also)])
