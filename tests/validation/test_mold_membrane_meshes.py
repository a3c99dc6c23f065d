"""Real meshes peeled as sheets of two finenesses: what is told of them is the same, maxima and forces are not asked.

Meshes: those of `real_meshes`; how they stand: `test_mold_removal_debian`. Tolerance: the share of the stretch by which
an issue of this project lets the 95th and 99th percentiles be called steady, 3 and 5 %: our own.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from real_meshes import file_of

from moldwright.commission.orders import MoldOrder
from moldwright.job.solids_chain import MOUNT, SETTLE
from moldwright.mold.glove import coat
from moldwright.mold.membrane import sheet_peeled
from moldwright.mold.membrane_pull import PullSettings
from moldwright.progress import silent
from moldwright.scan import read_with_hash
from moldwright.store.memory import NoStore

SOURCE = ("Meshes of Debian's libcgal-demo (CC0): each against itself in finer triangles",)

pytestmark = pytest.mark.slow


@pytest.mark.parametrize(("name", "height_mm"), [("hand.off", 150.0), ("knot1.off", 70.0)])
def test_percentiles_hold_on_finer_triangles(name: str, height_mm: float, tmp_path: Path) -> None:
    scan, mold = read_with_hash(file_of(name, tmp_path)).scan, MoldOrder()
    settled = SETTLE.kept(NoStore(), silent, scan, height_mm, None, "+z", None)
    mounted = MOUNT.kept(NoStore(), silent, settled, mold.mouth_width_mm, mold.mouth_share).value
    coats = coat(mounted.body, (1.0, 1.5, 1.5), mold.flange_mm, settled.value.standing.step_mm)
    coarse, fine = (
        sheet_peeled(coats.closed, -2.0, triangles, PullSettings(), lambda part: None) for triangles in (2000, 3000)
    )
    assert coarse.drawn.off
    assert fine.drawn.off
    assert coarse.below(0.95) == pytest.approx(fine.below(0.95), rel=0.03)
    assert coarse.below(0.99) == pytest.approx(fine.below(0.99), rel=0.05)
