"""What other kinds of mold about the same original measure, as values: a plan is held against them without solids."""

from __future__ import annotations

from dataclasses import dataclass

from moldwright.job.searched import Tried
from moldwright.mold.kinds import Block, Locked, Slim


@dataclass(frozen=True, slots=True)
class Halves:
    """A block in two parts.

    Parameters
    ----------
    block : both together.
    deep_ml : rubber of the two that hooks farther than soft rubber gives way [ml].
    parting_mm : how long the line is along which they part [mm].
    """

    block: Block
    deep_ml: float
    parting_mm: float


@dataclass(frozen=True, slots=True)
class Formed:
    """Other kinds of mold.

    Parameters
    ----------
    slim : thin parts, and narrow gaps.
    jacket_mm : how thick the jacket is [mm]; `jacket`: what it and its shell in one piece or two would take.
    block : a block in one piece; `locked`: what locks it straight up; `slender`: its depth over its least width.
    halves : a block in two parts, None where no two go apart.
    """

    slim: Slim
    jacket_mm: float
    jacket: Tried
    block: Block
    locked: Locked
    slender: float
    halves: Halves | None
