"""What holds a shell closed while the cast is liquid."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class ClosurePlan:
    """What the full mold presses its pieces apart with, and what holds them.

    Parameters
    ----------
    density_g_ml : of the heaviest mix that is poured, taken to fill the mold to its mouth.
    pushes_n : of each piece, first off first, along its draw; none where nobody knows the solid.
    weights_kg : what lies on each piece so that the cast does not lift it, 0 where it is not lifted.
    bands : rubber bands round the shell; `straps`: with a buckle, where bands would be too many.
    seam_clamps, flange_clamps : on the seam's two flanges, none where it is lapped, the fewer where it is bolted; on
        the glove's flange.
    seam_bolts, base_bolts : through the flanges of a printed shell, at its seam and round its base.
    seam_bolt_mm : how long a bolt of the seam is, 0 where there is none.
    pitch_mm : how far apart clamps or bolts stand along the seam at the most.
    """

    density_g_ml: float
    pushes_n: tuple[float, ...]
    weights_kg: tuple[float, ...]
    bands: int
    straps: int
    seam_clamps: int
    flange_clamps: int
    pitch_mm: float
    seam_bolts: int = 0
    base_bolts: int = 0
    seam_bolt_mm: float = 0.0

    @property
    def push_n(self) -> float:
        """The greatest push on a piece, 0 where none is known [N]."""
        return max(self.pushes_n, default=0.0)

    @property
    def clamps(self) -> int:
        """All clamps."""
        return self.seam_clamps + self.flange_clamps

    @property
    def bolts(self) -> int:
        """All bolts."""
        return self.seam_bolts + self.base_bolts
