"""From a tape to the original: a closed solid of the likely volume, and the ranges that it stands for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from moldwright.geometry.mesh import Mesh
from moldwright.ranges import Range, Spread
from moldwright.tape.check import check_gaps, checked
from moldwright.tape.drawn import Drawn, drawn_of
from moldwright.tape.draws import Draws
from moldwright.tape.narrower import Narrower, narrower
from moldwright.tape.parts import parts_of
from moldwright.tape.solid import round_solid, stretched
from moldwright.tape.sums import sums
from moldwright.tape.told import Gap, Tape

DRAWS = 1999


@dataclass(frozen=True, slots=True, eq=False)
class Taped:
    """The original by tape: its likely solid on the board, volume and area at 90 %, what was understood.

    `area_slope` : by how many percent the area is likely larger where the volume is one percent larger.
    `narrower` : what to measure or tell besides.
    """

    mesh: Mesh
    height_mm: float
    volume_ml: Range
    area_cm2: Range
    area_slope: float
    drawn: Drawn
    narrower: tuple[Narrower, ...]

    @property
    def spread(self) -> Spread:
        """The ranges as factors on what is measured on the solid."""
        volume = self.volume_ml * (1.0 / self.volume_ml.likely)
        rubber = self.area_cm2 * (1.0 / self.area_cm2.likely)
        return Spread(volume, self.area_cm2 * (100.0 / self.mesh.area_mm2), rubber)


def taped(tape: Tape, height_mm: float | None = None, gaps: Sequence[Gap] = ()) -> Taped:
    """The original as a tape tells it; the same tape gives the same result on every machine.

    Parameters
    ----------
    tape : the body's levels, three at least, and its limbs.
    height_mm : from the board to the body's top [mm]; None: the last level is the top.
    gaps : what the tape does not see, taken away.

    Raises InputRefused for what cannot be, with the smallest change that mends it. Source: our own; how well a person
    reads: common practice, no source; priors of form in tape/doubts.toml.
    """
    top_mm = checked(tape, height_mm)
    draws = Draws(DRAWS)
    parts = parts_of(tape, top_mm, draws)
    check_gaps(gaps, sum(part.count * float(part.lofts.volume_mm3[0]) for part in parts))
    held = sums(tape, parts, gaps, draws)
    round_ = round_solid(parts)
    mesh = stretched(round_, held.volume_ml.likely * 1000.0)
    top_of_all_mm = float(mesh.bounds_mm[1][2])
    drawn, more = drawn_of(tape, parts, round_), narrower(tape, parts, gaps, top_mm, flat=height_mm is None)
    return Taped(mesh, top_of_all_mm, held.volume_ml, held.area_cm2, held.area_slope, drawn, more)
