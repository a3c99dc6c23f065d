"""Figures of the carving: how finely, what makes a photo a stranger among the others, how many must be left."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class HullSettings:
    """Our own, tried on rendered photos and on exact outlines (docs/decisions/0040).

    `least_step_mm`, `steps` : the field's step is the larger of the first and the longest side by the second;
    `compare_steps` : the same for comparing views; `alone_share` : what one photo alone may take away, of what is left;
    `doubtful_alone_share`, `conflict_share` : from how much taken alone on, and with how much of outlines left without
    anything behind them, a photo is a stranger; `own_share` : how much of its own outline may be without anything
    behind it; `tolerance_steps` : how deep a point may be carved and still count as left; `spare` : how many strangers
    the first look allows; `dropped_share` : how many of the photos may be strangers; `least_photos` : how many must be
    left; `body_share` : from which share of the whole on a second body is a second piece.
    """

    least_step_mm: float = 0.5
    steps: int = 220
    compare_steps: int = 130
    alone_share: float = 0.025
    doubtful_alone_share: float = 0.003
    conflict_share: float = 0.003
    own_share: float = 0.03
    tolerance_steps: float = 0.3
    spare: int = 3
    dropped_share: float = 0.25
    least_photos: int = 24
    body_share: float = 0.03
    top_sides: float = 1.6
