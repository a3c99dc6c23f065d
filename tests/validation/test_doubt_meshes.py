"""Ten packaged meshes known by photos only: does what is planned of the shell hold on the true mesh?

Each mesh is photographed: two through rendered photos (VTK) and the whole chain, the others by their outlines
(OpenCV), each pose off as a found one is off. The shell is planned on the solid that stands for it. Then the number of
pieces, the draws and the seam of that plan are taken to the true mesh: coated on the planned plinth, packed where a
piece would catch, the shell built along the planned seam; booleans and rays (manifold3d, Embree) say whether it comes
off, and what was packed is held against the range that the plan tells.

The width of the ranges (`moldwright.job.doubting.MORE`, `moldwright.mold.could_be`) was set on four bodies of our
own (tests/photo_sets/bodies.py), none of which is here. Of pyvista's other bodies the ant's legs are too thin for
photos, which are refused, and the airplane's surfaces close to no solid.

`python -m tests.validation.test_doubt_meshes` prints every one.
"""

from __future__ import annotations

import sys
import tempfile
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest
import trimesh
from tests.held_truth import STEP_MM, Laid, laid_on
from tests.photo_sets.bodies import OWN
from tests.photo_sets.materials import Material
from tests.photo_sets.person import answers
from tests.photo_sets.real import PACKAGED, Packaged, packaged
from tests.photo_sets.shoot import Shoot, shoot
from tests.photographed import Outlined, fitting, outlined

from moldwright.commission.orders import Commission, MoldOrder, OriginalOrder
from moldwright.errors import MoldwrightError
from moldwright.job import sources
from moldwright.job.costs import cost_by
from moldwright.job.doubted import doubted_about
from moldwright.job.doubting import mold_doubt, on_all
from moldwright.job.pieces import recommended, tried_rows
from moldwright.job.planning import make_plan, shell_settings
from moldwright.job.shelling import split_settings
from moldwright.job.standing import gaps_of, mounted_on, settle
from moldwright.job.tried import tried_with
from moldwright.materials import library
from moldwright.mold.flange import keyed
from moldwright.mold.glove import coat
from moldwright.mold.measures import Skin
from moldwright.mold.mouth import Mounted
from moldwright.mold.split_search import splits_about
from moldwright.mold.splits import Splits
from moldwright.photos.photograph import photograph
from moldwright.photos.photographed import PhotosAsked
from moldwright.photos.reading.read import read_photos
from moldwright.plan.doubt import MoldDoubt
from moldwright.plan.flange import Point2
from moldwright.plan.known import Known
from moldwright.plan.original import Source
from moldwright.progress import silent
from moldwright.quantities.quantities import basis_of
from moldwright.ranges import Range
from moldwright.store.memory import MemoryStore

SOURCE = (
    "Packaged meshes of libcgal-demo and pyvista, photographed; booleans by manifold3d, rays by Embree",
    "What is packed on the true mesh, built with the planned draws and seam; computed, no table of others",
)
pytestmark = pytest.mark.slow

PROVEN = PACKAGED
RENDERED = frozenset(("bull.off", "hand.off"))
FLANGE_MM = 40.0
SPLIT_STEPS, FEWER_CUT = 42, 60_000
UNCOVERED = 0.05
"""Of the rubber so much may be left bare where the planned seam does not quite hold: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Row:
    """What came of a mesh [ml]."""

    name: str
    true_ml: float
    told_ml: Range
    pieces: int
    packing_ml: Range
    laid: Laid
    sure: str

    @property
    def comes_off(self) -> bool:
        """Whether the plan's pieces come off the true mesh along the plan's draws and cover it."""
        return self.laid.free and self.laid.uncovered_share <= UNCOVERED

    @property
    def holds(self) -> bool:
        """Whether they do, with what is packed inside the told range."""
        return self.comes_off and self.packing_ml.low <= self.laid.packed_ml <= self.packing_ml.high

    def __str__(self) -> str:
        told, packing, laid = self.told_ml, self.packing_ml, self.laid
        return (
            f"{' ' if self.holds else '!'} {self.name:14} {self.true_ml:7.1f} ml told {told.low:7.1f}-{told.high:7.1f}"
            f"  {self.pieces} pieces  packed {laid.packed_ml:6.2f} told {packing.low:6.2f}-{packing.high:6.2f}"
            f"  free {laid.free!s:5} overlap {laid.overlap_mm3:.2g} mm3 bare {laid.uncovered_share:.3f}  {self.sure}"
        )


def photographed(one: Packaged, body: trimesh.Trimesh, seed: int, folder: Path) -> Outlined:
    """Through rendered photos, or by outlines."""
    if one.file not in RENDERED:
        return outlined(body, seed)
    how = Shoot(seed=seed, material=Material.GRAY, width_px=1200, height_px=900, masks=False)
    truth = shoot(body, fitting(body), folder, how)
    with read_photos(folder) as photos:
        found = photograph(photos, PhotosAsked())
        if found.asks:
            found = photograph(photos, PhotosAsked(bowls=answers(truth.body, found.asks)))
    return Outlined(truth.body, found.mesh, found.spread)


@dataclass(frozen=True, slots=True)
class Reckoned:
    """What a plan says of the mold, and what it was reckoned with."""

    doubt: MoldDoubt
    pieces: int
    outline: tuple[Point2, ...]
    mounted: Mounted
    splits: Splits


def planned(order: Commission, found: Outlined) -> Reckoned:
    """By the whole plan."""
    known = Known(Source.PHOTOS, (), found.spread)
    made = make_plan(order, sources.solid_as_scan(found.mesh), library(), MemoryStore(), silent, known=known)
    assert made.plan.doubt is not None
    solids = made.solids
    pieces, outline = len(made.plan.shell.pieces), made.plan.flange.outline
    return Reckoned(made.plan.doubt, pieces, outline, solids.mounted.value, solids.splits.value)


def reckoned(order: Commission, found: Outlined) -> Reckoned:
    """The same stages without the shell's solids; the coats on a grid of 2 mm, fewer pairs of draws tried."""
    basis = basis_of(order, library())
    shell, peels_mm = shell_settings(basis.chosen.shell, order.mold), basis.chosen.rubber.glove_mm.high
    settled = settle(sources.solid_as_scan(found.mesh), None, None, None, 0.0, silent)
    mounted = mounted_on(settled, order.mold.mouth_width_mm, order.mold.mouth_share)
    coats = coat(mounted.body, tuple(each.thickness_mm for each in basis.coats), FLANGE_MM, STEP_MM)
    low, high = coats.with_flange(coats.flange.outline).bounds_mm
    step_mm = max(1.5, float((high - low).max()) / SPLIT_STEPS)
    asked = split_settings(coats.total_mm, peels_mm, shell.draft_deg)
    splits = splits_about(coats.with_flange(coats.flange.outline), shell.seam_flange_mm, coats.total_mm, step_mm, asked)
    volume, known = found.spread.volume, Known(Source.PHOTOS, (), found.spread)
    skin = Skin(0.5 * mounted.body.volume_ml, 0.0)
    tried = tried_with(mounted, settled, gaps_of(settled, mounted), skin, coats, splits, shell)
    doubted = doubted_about(mounted, coats, splits, shell, peels_mm, volume, silent)
    cost = cost_by(order, library(), basis)
    pieces = recommended(tried_rows(on_all(tried, doubted), cost), order.shop.hour)
    built = next(each.measures for each in tried.rows if each.used == pieces)
    doubt = mold_doubt(tried, doubted, cost, order.shop.hour, built, known)
    assert doubt is not None
    return Reckoned(doubt, pieces, keyed(coats.flange).outline, mounted, splits)


def row_of(name: str, found: Outlined, whole: bool = False) -> Row:
    order = Commission(sources.as_made(OriginalOrder(name)), mold=MoldOrder(flange_mm=FLANGE_MM))
    plan = planned(order, found) if whole else reckoned(order, found)
    basis = basis_of(order, library())
    total_mm = sum(each.thickness_mm for each in basis.coats)
    shell = shell_settings(basis.chosen.shell, order.mold)
    split = plan.splits.of(plan.pieces)
    laid = laid_on(found.body, found.mesh, plan.mounted, plan.outline, total_mm, FLANGE_MM, split, shell)
    likely_ml = found.mesh.volume_ml
    doubt = plan.doubt
    sure = "sure " + "+".join(doubt.sure) + "; unsure " + "+".join(doubt.unsure)
    told = found.spread.volume * likely_ml
    return Row(name, found.body.volume / 1000.0, told, plan.pieces, doubt.packing_ml, laid, sure)


@cache
def row(name: str) -> Row:
    number, one = next((n, each) for n, each in enumerate(PROVEN) if each.file == name)
    with tempfile.TemporaryDirectory() as folder:
        found = photographed(one, packaged(one), 700 + number, Path(folder))
    return row_of(name, found, whole=one.file in RENDERED)


def tried(name: str) -> Row | str:
    """A row, or why there is none."""
    try:
        own = next(((n, each) for n, each in enumerate(OWN) if each.name == name), None)
        return row(name) if own is None else row_of(name, outlined(own[1].mesh(), 110 + own[0]))
    except MoldwrightError as refused:
        return f"! {name:14} {refused}"


@cache
def proven() -> tuple[Row, ...]:
    """What held of each of the ten meshes for which a plan was made."""
    try:
        rows = [tried(one.file) for one in PROVEN]
    except FileNotFoundError:
        pytest.skip("the meshes of libcgal-demo are not here; set MOLDWRIGHT_MESHES")
    print(*rows, sep="\n")
    return tuple(each for each in rows if isinstance(each, Row))


def test_the_planned_shell_comes_off_the_true_mesh() -> None:
    """Of nine of ten at least."""
    assert sum(each.comes_off for each in proven()) >= 9


@pytest.mark.xfail(strict=True, reason="7 of 9: a triceratops packs 4 % more than told, bones' volume photos miss")
def test_what_is_packed_on_the_true_mesh_lies_in_its_range() -> None:
    """Of nine of ten at least; not reached yet."""
    assert sum(each.holds for each in proven()) >= 9


def main(names: list[str]) -> None:
    """Those named, of our own bodies too; all ten where none is."""
    for name in names or [one.file for one in PROVEN]:
        print(tried(name), flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
