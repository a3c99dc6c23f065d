"""What solids would measure, from a volume alone: likely, and at the corners of what is possible. No solid is made.

Every share was measured on the solids that the whole chain made of the bodies of tests/tape_bodies.py, at 4 mm of
rubber and a flange of 40 mm: its middle, and what held nine of ten.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import accumulate, pairwise, product
from math import exp, fsum, pi

from shapely import Point

from moldwright.commission.orders import MoldOrder
from moldwright.geometry.seam_kind import Seam
from moldwright.mold.flange import DEEPEST_SHARE, BareFlange, corners, keyed
from moldwright.mold.flange_room import keep_from_wall_mm
from moldwright.mold.measures import (
    CavityMeasures,
    GloveMeasures,
    MoldMeasures,
    PieceMeasures,
    ShellMeasures,
    Skin,
)
from moldwright.mold.shell_settings import ShellSettings
from moldwright.original.evidence.only_volume import OnlyVolume, ball_mm, plain_area_cm2
from moldwright.plan.flange import FlangePlan, Frame

CoatsMm = tuple[float, ...]
"""Thickness of each coat [mm]."""


@dataclass(frozen=True, slots=True)
class Share:
    """A share that forms scatter about: its middle, and how far nine of ten lie from it at most, as a logarithm."""

    likely: float
    off: float

    def at(self, corner: float) -> float:
        """Its value at a corner: -1 the low end, 0 the middle, 1 the high end.

        >>> Share(2.0, 0.5).at(0.0)
        2.0
        """
        return self.likely * exp(corner * self.off)


WALLS = Share(1.42, 0.33)
"""Surface above the board, a plinth's included, over that of the plain body of the same volume."""
COATED = Share(1.45, 0.35)
"""Rubber of the coats over what a ball of that surface would take."""
SKINNED = Share(1.38, 0.3)
"""A skin over what a ball of that surface would take."""
FOOT = Share(0.8, 0.75)
"""Radius of the foot as round as the flange's edge is long, over that of the ball of the same volume."""
PACKED = Share(0.012, 2.0)
"""Undercuts and crevices over the original's volume; none at the low end."""
LAID = Share(1.35, 0.36)
"""Surface under the shell, without the flange, over that of the plain body in its rubber."""
FULL = 0.87
"""Shell's volume over its surface and seam times its thickness: corners are thinner."""
SEAM = Share(1.6, 0.55)
"""Length of the seam over once round the ball in its rubber and twice over the flange."""
PLINTH = 0.2
"""Plinth over the original's volume where a mouth asks for one; counted at the high end of what a mold holds."""
WIDE = Share(1.4, 0.55)
"""Greatest width over the diameter of the ball."""


def likely_measures(
    known: OnlyVolume, mold: MoldOrder, skin_mm: float, coats_mm: CoatsMm, shell: ShellSettings
) -> MoldMeasures:
    """What solids would likely measure.

    Parameters
    ----------
    known : volume and height.
    mold : the width of the flange.
    skin_mm : thickness of the cast's skin [mm].
    coats_mm : thickness of each coat [mm].
    shell : its dimensions.

    Source: shares measured, see the constants; bends of coats and skin as a ball's (Steiner's formula).
    """
    return _Body(known, mold, skin_mm, coats_mm, shell, 0.0, 0.0).measures()


def corner_measures(
    known: OnlyVolume, mold: MoldOrder, skin_mm: float, coats_mm: CoatsMm, shell: ShellSettings
) -> tuple[MoldMeasures, ...]:
    """The same where volume and form are each as small or as large as they may be.

    Parameters
    ----------
    known, mold, skin_mm, coats_mm, shell : as for `likely_measures`.

    Source: as for `likely_measures`.
    """
    ends = (-1.0, 1.0)
    return tuple(
        _Body(known, mold, skin_mm, coats_mm, shell, volume, form).measures() for volume, form in product(ends, ends)
    )


@dataclass(frozen=True, slots=True)
class _Body:
    """What is reckoned with: the order, and how far volume and form lie to their ends, -1 to 1."""

    known: OnlyVolume
    mold: MoldOrder
    skin_mm: float
    coats_mm: CoatsMm
    shell: ShellSettings
    volume: float
    form: float

    @property
    def volume_ml(self) -> float:
        told = self.known.volume_ml
        return {-1.0: told.low, 0.0: told.likely, 1.0: told.high}[self.volume]

    @property
    def radius_mm(self) -> float:
        """Of the ball."""
        return ball_mm(self.volume_ml) / 2.0

    @property
    def plain_mm2(self) -> float:
        return plain_area_cm2(self.volume_ml, self.known.height_mm.likely) * 100.0

    @property
    def total_mm(self) -> float:
        """All coats together."""
        return fsum(self.coats_mm)

    def measures(self) -> MoldMeasures:
        """All that is reckoned from."""
        flange = self._flange()
        plinth_ml = self.volume_ml * PLINTH if self.volume > 0.0 else 0.0
        walls_mm2 = self.plain_mm2 * WALLS.at(self.form)
        seam_mm = self._seam_mm()
        return MoldMeasures(
            piece=PieceMeasures(self.volume_ml, walls_mm2, self.known.height_mm.likely, self._wide_mm(), ()),
            cavity=CavityMeasures(self.volume_ml + plinth_ml, walls_mm2, plinth_ml, 0.0),
            flange=flange,
            glove=self._glove(flange),
            shell=self._shell(flange, seam_mm),
            skin=self._skin(self.volume_ml + plinth_ml),
        )

    def _wide_mm(self) -> float:
        return 2.0 * self.radius_mm * WIDE.at(self.form)

    def _flange(self) -> FlangePlan:
        """A round one, as a stand-in for its amounts."""
        width_mm, wall_mm, foot_mm = self.mold.flange_mm, self.total_mm, self._foot_mm()
        keep_mm = keep_from_wall_mm(width_mm, wall_mm)
        reach_mm = foot_mm + width_mm
        return keyed(
            BareFlange(
                width_mm=width_mm,
                keep_mm=keep_mm,
                depth_mm=min(width_mm - wall_mm - keep_mm, DEEPEST_SHARE * width_mm),
                frame=Frame(-reach_mm, -reach_mm, reach_mm, reach_mm),
                foot=corners(Point(0.0, 0.0).buffer(foot_mm, quad_segs=32)),
                outline=corners(Point(0.0, 0.0).buffer(reach_mm, quad_segs=32)),
            )
        )

    def _foot_mm(self) -> float:
        return self.radius_mm * FOOT.at(self.form)

    def _glove(self, flange: FlangePlan) -> GloveMeasures:
        ends = [0.0, *accumulate(self.coats_mm)]
        surface_mm2 = self.plain_mm2 * COATED.at(self.form)
        coats = tuple(surface_mm2 * _bent(a, b, self.radius_mm) / 1000.0 for a, b in pairwise(ends))
        rim_mm2 = flange.area_mm2 - pi * (self._foot_mm() + self.total_mm) ** 2
        fill_ml = self.volume_ml * PACKED.at(self.form) if self.form >= 0.0 else 0.0
        return GloveMeasures(coats, rim_mm2 * self.total_mm / 1000.0, fill_ml, (), 0.0)

    def _seam_mm(self) -> float:
        once = 2.0 * pi * (self.radius_mm + self.total_mm) + 2.0 * self.mold.flange_mm
        return SEAM.at(self.form) * once

    def _shell(self, flange: FlangePlan, seam_mm: float) -> ShellMeasures:
        shell = self.shell
        gloved_mm2 = self.plain_mm2 * (1.0 + self.total_mm / self.radius_mm) ** 2 * LAID.at(self.form)
        area_mm2 = gloved_mm2 + flange.area_mm2 - pi * self._foot_mm() ** 2 + flange.edge_mm * shell.base_lip_mm
        walled = shell.seam is Seam.WALL
        seam_ml = 2.0 * seam_mm * shell.seam_flange_mm * shell.wall_mm / 1000.0 if walled else 0.0
        return ShellMeasures(
            area_mm2=area_mm2,
            volume_ml=FULL * (area_mm2 * shell.wall_mm / 1000.0 + seam_ml),
            seam=shell.seam,
            edges_mm=(0.0, seam_mm),
            seam_flange_mm=shell.seam_flange_mm if walled else 0.0,
            lap_mm=0.0 if walled else shell.lap_mm,
            base_lip_mm=shell.base_lip_mm,
        )

    def _skin(self, cavity_ml: float) -> Skin:
        deep_mm = min(self.skin_mm, self.radius_mm)
        whole_ml = self.plain_mm2 * SKINNED.at(self.form) * _bent(-deep_mm, 0.0, self.radius_mm) / 1000.0
        whole_ml = min(whole_ml, cavity_ml)
        return Skin(whole_ml, max(self.volume_ml - whole_ml, 0.0))


def _bent(low_mm: float, high_mm: float, radius_mm: float) -> float:
    """How thick a layer between two offsets of a ball counts, with its bend [mm]: Steiner's formula.

    >>> round(_bent(0.0, 4.0, 1e9), 6), round(_bent(-4.0, 0.0, 4.0), 6)
    (4.0, 1.333333)
    """
    return radius_mm / 3.0 * ((1.0 + high_mm / radius_mm) ** 3 - (1.0 + low_mm / radius_mm) ** 3)
