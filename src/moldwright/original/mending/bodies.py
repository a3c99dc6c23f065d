"""Which body stands on the board: the largest; specks are dropped and told, a second real body is refused."""

from __future__ import annotations

from moldwright.errors import InputRefused
from moldwright.geometry.solid import Solid, solid_of
from moldwright.original.mending.parts import meshes_in
from moldwright.scan.repairs import Repair, RepairCode

LEAST_BODY_SHARE = 0.01


def nothing_left() -> InputRefused:
    """The refusal where nothing of the scan is over the board.

    Source: our own.
    """
    return InputRefused(
        "nothing-above-board", 0, 1, "bodies", "Set the board lower, or check which way is up: nothing is left."
    )


def one_body(solid: Solid) -> tuple[Solid, tuple[Repair, ...]]:
    """The largest body of a solid, and the specks that were dropped.

    Raises InputRefused where a second body holds more than 1 % of the first (common practice, no source).

    Parameters
    ----------
    solid : all that stands on the board [mm].

    Source: our own.
    """
    bodies = meshes_in(solid)
    if not bodies:
        raise nothing_left()
    volumes = [body.volume_ml for body in bodies]
    real = sum(volume > LEAST_BODY_SHARE * volumes[0] for volume in volumes)
    if real > 1:
        raise InputRefused(
            "bodies-apart",
            real,
            1,
            "bodies",
            "Above the board the scan falls apart: join its parts in the scan, or plan them one at a time.",
        )
    if len(bodies) == 1:
        return solid_of(bodies[0]), ()
    return solid_of(bodies[0]), (Repair(RepairCode.SPECKS_DROPPED, round(sum(volumes[1:]), 3), "ml", len(bodies) - 1),)
