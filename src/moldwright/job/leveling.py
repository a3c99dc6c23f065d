"""Level cuts that were asked for: each has to meet the piece."""

from __future__ import annotations

from typing import TYPE_CHECKING

from moldwright.errors import InputRefused
from moldwright.units import show_length
from moldwright.ways import Change

if TYPE_CHECKING:
    from moldwright.mold.mouth import Mounted
    from moldwright.store.stage import Kept


def refuse_cuts_over(mounted: Kept[Mounted], level_cuts_mm: tuple[float, ...]) -> None:
    """Refuse a level cut over the top of the piece.

    Parameters
    ----------
    mounted : the original on its plinth; not asked for where no cut was.
    level_cuts_mm : heights over the board, the least first [mm].

    Raises InputRefused ("cut-over-the-top").
    """
    if not level_cuts_mm:
        return
    tall_mm = float(mounted.value.body.bounds_mm[1][2])
    if level_cuts_mm[-1] >= tall_mm:
        asked, top = show_length(level_cuts_mm[-1], step_mm=0.1), show_length(tall_mm, step_mm=0.1)
        remedy = "Cut it lower: heights are measured from the board, the plinth included"
        raise InputRefused("cut-over-the-top", asked, top, "", remedy, Change("mold.level-cuts"))
