"""How far a mold is worn, as lengths along a rule; the figures themselves stand beside it in words."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.records.molds.read import MoldKnown


@dataclass(frozen=True, slots=True)
class WearRule:
    """Places along the rule, 0 to 100: casts drawn; from where on it may be worn, and where it is likely to be."""

    drawn: float
    low: float
    likely: float


def wear_of(known: MoldKnown) -> WearRule | None:
    """The rule of a mold; None where nobody knows how many casts it gives.

    Parameters
    ----------
    known : the mold.
    """
    lasts = known.facts.lasts
    if lasts is None:
        return None
    whole = max(lasts.high, float(known.facts.drawn), 1.0)
    return WearRule(*(round(100.0 * each / whole, 2) for each in (known.facts.drawn, lasts.low, lasts.likely)))
