"""Kinds of mold as a practitioner decides, on solids that are built here: each on coarse grids, from its own solid.

A printed relief is poured flat and open; a palm-sized piece is a block; a long thin one too, cut open all along its
side, since no hand draws it out; a ring stands in a block or halves that part through it; a life-size bust is under a
shell, glove or jacket, since a block of it takes tens of kilograms of rubber.
"""

from __future__ import annotations

from dataclasses import replace

import manifold3d as m3
import pytest

from moldwright.commission.orders import Commission, EditionOrder, MoldOrder, OriginalOrder
from moldwright.geometry.mesh import Mesh
from moldwright.geometry.solid import mesh_of
from moldwright.job import forming
from moldwright.job.planning import shell_settings
from moldwright.job.standing import gaps_of, mounted_on, settle
from moldwright.job.strategies import hook_mm, strategies_of
from moldwright.materials import library
from moldwright.mold.measures import MoldMeasures, Skin
from moldwright.plan.peel import PeelFound, PeelPlan, PeelShape, PeelWay, TightPlace
from moldwright.plan.strategies import StrategiesPlan, Strategy
from moldwright.progress import silent
from moldwright.quantities.quantities import basis_of
from moldwright.scan.scan import Scan

SOURCE = ("common practice, no source: what a practitioner makes of a relief, a palm-sized piece, a ring and a bust",)
SKIN_SHARE = 0.3


def box(x_mm: float, y_mm: float, z_mm: float) -> m3.Manifold:
    return m3.Manifold.cube([x_mm, y_mm, z_mm]).translate([-x_mm / 2, -y_mm / 2, 0.0])


def relief() -> m3.Manifold:
    """A rule of 180 x 40 x 6 with a raised band and three bosses."""
    bosses = [m3.Manifold.cylinder(4, 8, 6, 32).translate([x, 0, 6]) for x in (-60, 0, 60)]
    return sum(bosses, box(180, 40, 6) + box(170, 6, 9))


def palm() -> m3.Manifold:
    """A stout thing of 56 mm on a flat foot."""
    return m3.Manifold.sphere(28, 64).scale([1, 0.9, 1.1]).translate([0, 0, 26]).trim_by_plane([0, 0, 1], 0)


def figure() -> m3.Manifold:
    """A standing figure of 312 mm, 18 thick, on a foot, its head wider than its body."""
    head = m3.Manifold.sphere(14, 48).translate([0, 0, 298])
    return m3.Manifold.cylinder(300, 9, 7, 48) + m3.Manifold.cylinder(12, 22, 20, 48) + head


def ring() -> m3.Manifold:
    """An upright ring of 72 mm on a foot."""
    upright = m3.CrossSection.circle(6, 32).translate([30, 0]).revolve(64).rotate([90, 0, 0]).translate([0, 0, 42])
    return box(60, 24, 12) + upright


def bust() -> m3.Manifold:
    """Shoulders, neck and head, 390 mm high."""
    shoulders = m3.Manifold.cylinder(90, 110, 70, 64).scale([1.3, 0.8, 1])
    head = m3.Manifold.sphere(1, 64).scale([85, 105, 130]).translate([0, 5, 260])
    return shoulders + m3.Manifold.cylinder(170, 65, 55, 48) + head


def kinds_for(solid: m3.Manifold, stretch: float, count: int = 12) -> StrategiesPlan:
    """Glove, jacket and blocks of a solid, their shells' seams searched on few points; how far a glove stretches that
    passes its widest girth is told by its dimensions."""
    body: Mesh = mesh_of(solid)
    order = Commission(OriginalOrder("it.stl", unit="mm", up="+z"), EditionOrder(count), MoldOrder())
    basis = basis_of(order, library())
    settled = settle(Scan(body, "mm", None, 1, "stl", (), True), None, "mm", "+z", None, silent)
    mounted = mounted_on(settled, order.mold.mouth_width_mm, order.mold.mouth_share)
    skin = Skin(SKIN_SHARE * body.volume_ml, (1.0 - SKIN_SHARE) * body.volume_ml)
    limits = basis.chosen.rubber.glove_mm.high, hook_mm(basis.chosen.rubber)
    gaps, settings = gaps_of(settled, mounted), shell_settings(basis.chosen.shell, order.mold)
    formed = forming.formed_about(mounted, settled, gaps, skin, order.mold.flange_mm, settings, *limits, silent)
    tight = TightPlace((0.0, 0.0, 30.0), 40.0, 100.0, 0.0, 100.0 * stretch, stretch)
    peel = PeelFound(PeelPlan(PeelWay.ROLL, stretch, PeelShape(stretch, 0.0, (tight,), 0.0, 0.0)))
    glove = glove_like(formed.jacket.rows[-1].measures, formed.jacket_mm)
    return strategies_of(order, library(), basis, glove, formed, peel)


def glove_like(jacket: MoldMeasures, jacket_mm: float) -> MoldMeasures:
    """A glove of 4 mm about the same piece: of a jacket's rubber as much as it is thinner, its shell as large."""
    rubber_ml = jacket.glove.volume_ml * 4.0 / jacket_mm
    coats = tuple(rubber_ml * share for share in (0.15, 0.35, 0.5))
    return replace(jacket, glove=replace(jacket.glove, coat_ml=coats, flange_ml=0.0, fill_ml=0.0, crevice_ml=0.0))


@pytest.fixture(scope="module", autouse=True)
def coarse() -> object:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(forming, "POINTS", 8_000)
        patch.setattr(forming, "TRIES", 20_000)
        patch.setattr(forming, "COARSE_STEPS", 40)
        yield


def test_a_printed_relief_is_poured_flat_and_open() -> None:
    found = kinds_for(relief(), 1.0)
    assert found.recommended is Strategy.BLOCK
    assert found.of(Strategy.BLOCK).cut_mm == 0.0


def test_a_palm_sized_piece_is_a_block() -> None:
    found = kinds_for(palm(), 56.0 / 31.0)
    assert found.recommended in (Strategy.BLOCK, Strategy.HALVES)
    assert all(found.of(each).possible for each in (Strategy.BLOCK, Strategy.HALVES))
    assert found.of(Strategy.BLOCK).cut_mm > 20.0, "it is narrower below"


@pytest.mark.slow
def test_a_long_thin_figure_is_cut_open_along_its_side() -> None:
    found = kinds_for(figure(), 28.0 / 14.0)
    assert found.recommended in (Strategy.BLOCK, Strategy.HALVES)
    assert found.of(Strategy.BLOCK).cut_mm == pytest.approx(312.0, abs=3.0)


@pytest.mark.slow
def test_a_ring_is_cut_or_parted_through_its_hole() -> None:
    found = kinds_for(ring(), 72.0 / 60.0)
    block = found.of(Strategy.BLOCK)
    assert found.recommended in (Strategy.BLOCK, Strategy.HALVES)
    assert block.cut_mm > 39.0
    assert any(each.line.say == "mold-kind.web" for each in block.risks)
    assert found.of(Strategy.HALVES).possible


@pytest.mark.slow
@pytest.mark.parametrize("count", [1, 12, 60])
def test_a_life_size_bust_is_under_a_shell(count: int) -> None:
    found = kinds_for(bust(), 190.0 / 110.0, count)
    assert found.recommended in (Strategy.GLOVE, Strategy.JACKET)
    assert found.of(Strategy.BLOCK).rubber_g.likely > 15_000.0
