"""How a scan was made to stand: which way is up, how large it is, where it is cut, and who said so."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from moldwright.geometry.mesh import Mesh
from moldwright.scan.repairs import Repair


class UpBy(StrEnum):
    """Who says which way is up."""

    COMMISSION = "commission"
    FORMAT = "format"
    OPENING = "found: its largest opening is down"
    FLAT_AS_OPENING = "found: a flat side as large as its opening is down"
    ONLY_SIDE = "found: the only side it can stand on is down"
    FLATTEST_SIDE = "found: the flattest side it can stand on is down"


class ScaleBy(StrEnum):
    """Who says how large a file unit is."""

    HEIGHT = "commission: the height from the board to the top"
    UNIT = "commission: the unit"
    FORMAT = "format"


class BoardBy(StrEnum):
    """Who says where the scan is cut."""

    COMMISSION = "commission"
    RIM = "found: just above the rim of the open base"
    LOWEST = "default: the lowest point"


@dataclass(frozen=True, slots=True)
class Stance:
    """Every choice that was made or followed in standing a scan on the board.

    Parameters
    ----------
    up : the file's direction that is up, "+z" or three numbers.
    up_by, scale_by, board_by : who said so.
    mm_per_unit : size of a file unit [mm].
    board_mm : the cut's height above the lowest point [mm].
    """

    up: str
    up_by: UpBy
    mm_per_unit: float
    scale_by: ScaleBy
    board_mm: float
    board_by: BoardBy


@dataclass(frozen=True, slots=True, eq=False)
class Placed:
    """A scan in millimeters as it stands: z up, the cut plane at z = 0; nothing is cut or capped yet.

    Parameters
    ----------
    mesh : triangles in mm; they may reach below z = 0.
    stance : every choice that was made or followed.
    repairs : the scan's repairs and those of placing.
    """

    mesh: Mesh
    stance: Stance
    repairs: tuple[Repair, ...]
