"""Stage: the glove as a sheet of rubber is drawn off, which tells how far it stretches and where most."""

from __future__ import annotations

from moldwright.mold.glove import Coats
from moldwright.mold.membrane import sheet_peeled, step_for, strained
from moldwright.mold.membrane_pull import PullSettings
from moldwright.mold.strained import Strained
from moldwright.progress import Progress

TRIANGLES = (2000, 3000)
"""It is drawn off in coarser and in finer triangles: what does not hold for both is not told: our own."""
THIN = 2.5
"""What ends freely and is thinner than so many sides of its triangles a sheet leaves out: not eight go round. Our
own."""
TOLD = "stretch the glove"


def strained_off(coats: Coats, progress: Progress) -> Strained:
    """How far the glove stretches as it is peeled, in the middle of its thickness.

    Parameters
    ----------
    coats : on the walls, crevices bridged.
    progress : told how far it is; it may raise to cancel.
    """
    runs = len(TRIANGLES)
    return strained(
        [
            sheet_peeled(
                coats.closed,
                -coats.total_mm / 2,
                triangles,
                PullSettings(),
                lambda part, done=number: progress(TOLD, (done + part) / runs),  # type: ignore[misc]
                THIN * step_for(coats.closed, triangles),
            )
            for number, triangles in enumerate(TRIANGLES)
        ]
    )
