"""What a bucket, a scale and a told gap say of an original's volume."""

from __future__ import annotations

import math
from collections.abc import Sequence
from math import exp, fsum, hypot, log
from typing import Protocol

from moldwright.errors import InputRefused
from moldwright.materials.originals import original_material
from moldwright.original.evidence.witness import Bound, Witness
from moldwright.plan.original import Source
from moldwright.ranges import NINETY, Range
from moldwright.units.read_off import ReadOff
from moldwright.ways import named_key, stands, writes

BUCKET_SHARE = 0.02
"""Half the range of a volume that was caught from a vessel's brim: common practice, no source."""
SCALE_SHARE = 0.005
"""The same of a weight on a shop's scale: common practice, no source."""
DENSITY_SHARE = 0.02
"""The same of a density that was told: common practice, no source."""
DIGIT = NINETY / math.sqrt(12.0)
"""Half the width at 90 % of the normal that stands for a rectangle of one step: a number tells all that round to it."""
GAP_FULL, GAP_SHARE = 0.75, 0.25
"""Of depth x width x length that a gap takes, between a bowl and a bore, and half its range: our own."""


class ToldGap(Protocol):
    """A recess that no outline shows."""

    @property
    def depth_mm(self) -> float:
        """From its mouth to its floor [mm]."""

    @property
    def width_mm(self) -> float:
        """Across its mouth [mm]."""

    @property
    def length_mm(self) -> float | None:
        """Along its mouth [mm]; None: as long as it is wide."""

    @property
    def count(self) -> int:
        """How many alike."""


def displaced(read: ReadOff) -> Witness:
    """What a bucket says: the water that the piece drove out.

    Parameters
    ----------
    read : as it was read off [ml].

    >>> found = displaced(ReadOff(1900.0, 10.0)).volume_ml
    >>> round(found.low), round(found.high)
    (1862, 1939)

    Source: doubt of the bucket: common practice, no source; of the last digit: JCGM 100:2008, F.2.2.1, from memory.
    """
    return Witness(Source.WATER, _around(read.value, hypot(BUCKET_SHARE, _digit(read))))


def weighed(read: ReadOff, density: ReadOff | None, material: str, solid: bool = True) -> Witness:
    """What a scale says: mass over density; a piece that is not solid fills at least so much.

    Parameters
    ----------
    read : its weight [g].
    density : as it was told [g/ml]; None: that of its material's class.
    material : what it is made of, as a person names it.
    solid : whether it is solid all through.

    Raises InputRefused where neither density nor material is known well enough. Source: V = m / rho.
    """
    mass = hypot(SCALE_SHARE, _digit(read))
    if density is not None:
        likely, below = density.value, hypot(DENSITY_SHARE, _digit(density))
        above = below
    else:
        known = _class_density(material)
        likely, below, above = known.likely, log(known.high / known.likely), log(known.likely / known.low)
    volume = read.value / likely
    found = Range(volume * exp(-hypot(mass, below)), volume, volume * exp(hypot(mass, above)))
    return Witness(Source.WEIGHT, found, bound=Bound.BOTH if solid else Bound.AT_LEAST)


def _class_density(material: str) -> Range:
    known = original_material(material)
    if known.density is None:
        told = f"{stands('original.material', known.name)}, and no {named_key('original.density')}"
        density = writes("original.density", '"1.65 g/ml"')
        remedy = (
            f"Write {density} with the figure of its data sheet, or {named_key('original.displaced')} with a bucket."
        )
        raise InputRefused("density-unknown", told, "a density to reckon the weight by", "", remedy)
    return known.density


def less_gaps(hull_ml: float, gaps: Sequence[ToldGap], source: Source = Source.PHOTOS) -> Witness:
    """What told gaps say beside outlines: the piece is at most its hull less the gaps.

    Parameters
    ----------
    hull_ml : all that outlines leave possible [ml], > 0.
    gaps : what no outline shows; one at least.
    source : what showed the outlines.

    Raises InputRefused where the gaps are as large as the hull. Source: our own.
    """
    sizes = [_gap_ml(gap) for gap in gaps]
    lost = fsum(sizes)
    doubt = GAP_SHARE * hypot(*sizes)
    if lost + doubt >= 0.95 * hull_ml:
        remedy = "Measure depth, width and length of the gaps again: they would leave nothing of the piece."
        raise InputRefused("gaps-too-large", round(lost), round(hull_ml), "ml", remedy)
    found = Range(hull_ml - lost - doubt, hull_ml - lost, hull_ml - lost + doubt)
    return Witness(source, found, bound=Bound.AT_MOST)


def _gap_ml(gap: ToldGap) -> float:
    long = gap.width_mm if gap.length_mm is None else gap.length_mm
    return gap.count * GAP_FULL * gap.depth_mm * gap.width_mm * long / 1000.0


def _digit(read: ReadOff) -> float:
    return DIGIT * read.step / read.value


def _around(value: float, share: float) -> Range:
    return Range(value * exp(-share), value, value * exp(share))
