"""Spaces under the piece that only the board closes: filled, since neither rubber nor resin reaches them."""

from __future__ import annotations

import manifold3d as m3

from moldwright.geometry.outline import section
from moldwright.geometry.solid import Solid
from moldwright.original.mending.parts import bodies_in
from moldwright.scan.repairs import Repair, RepairCode

FOOT_MM = 0.05
LEAST_POCKET_MM3 = 1.0


def without_pockets(body: Solid) -> tuple[Solid, list[Repair]]:
    """A solid with the air over the board that the outside does not reach filled, and each filling.

    Parameters
    ----------
    body : closed, over z = 0 [mm].

    Source: our own.
    """
    if not any(foot.interiors for foot in section(body, FOOT_MM).geoms):
        return body, []
    x, y, _, wide, deep, tall = body.bounding_box()
    size = (wide - x + 2.0, deep - y + 2.0, tall + 1.0)
    air = m3.Manifold.cube(size).translate((x - 1.0, y - 1.0, 0.0)) - body
    pockets = [part for part in bodies_in(air, LEAST_POCKET_MM3) if part.bounding_box()[5] < tall]
    repairs = [Repair(RepairCode.BOARD_HOLLOW_FILLED, round(pocket.volume() / 1000, 3), "ml") for pocket in pockets]
    return m3.Manifold.batch_boolean([body, *pockets], m3.OpType.Add), repairs
