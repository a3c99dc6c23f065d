"""Flange and plinth laid as the sheet says: the rubber is within 2 % of the plan's.

Rebuilt from the printed sentences alone (metric and US, after their rounding), from the foot as it stands on the board
and, under a plinth, from its full-size drawing traced to a fifth of a millimeter; shapely offsets, manifold3d reckons
volumes. On the demo and plain bodies; real meshes stand in `tests/validation`.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import geometry_bodies as bodies
import manifold3d as m3
import numpy as np
import pytest
from laid_flange import flange_by_hand, foot_seen, lengths, ring
from made_up_job import commission, job_of, volumes
from shapely import Polygon
from told import told

from moldwright.commission.orders import ShopOrder
from moldwright.job.rubbering import coated_with
from moldwright.job.standing import mounted_on, settle
from moldwright.making.demo.original import otter_mesh
from moldwright.mold.flange import keyed
from moldwright.mold.glove import CoatedBody, flanged
from moldwright.mold.mouth import Mounted, plinth_plan
from moldwright.progress import silent
from moldwright.units.system import UnitSystem

SOURCE = ("Reference libraries shapely (offsets in the plane), manifold3d (volumes) and trimesh (sections)",)

COATS_MM, WIDTH_MM = (0.6, 1.4, 2.0), 40.0
AGREE = 0.02
BODIES = {
    "demo": (lambda: otter_mesh(2.0), 190.0),
    "stump": (bodies.stump, 50.0),
    "table": (bodies.table, 50.0),
    "figure": (lambda: bodies.mesh(bodies.figure(bodies.cone(9, 8, 40, 32))), 58.0),
}


@cache
def standing(name: str) -> tuple[Mounted, CoatedBody]:
    made, tall = BODIES[name]
    settled = settle(bodies.scan(made()), tall, None, "+z", None, silent)
    mounted = mounted_on(settled, 20.0, 0.1)
    coats = coated_with(mounted, settled, COATS_MM, WIDTH_MM)
    return mounted, flanged(coats, keyed(coats.flange))


def sentences(mounted: Mounted, coated: CoatedBody, units: UnitSystem, step: str) -> str:
    plinth = plinth_plan(mounted)
    sides = {} if plinth is None else {
        "cavity__plinth_ml": plinth.volume_ml, "cavity__plinth_height_mm": plinth.height_mm,
        "cavity__plinth_length_mm": plinth.length_mm, "cavity__plinth_breadth_mm": plinth.breadth_mm,
    }  # fmt: skip
    job = job_of(commission(shop=ShopOrder(units=units)), measures=replace(volumes(**sides), flange=coated.flange))
    return " ".join(told(job).step(step).do)


def raised(outline: Polygon, high_mm: float) -> m3.Manifold:
    return m3.CrossSection([np.array(outline.exterior.coords)[:-1]], m3.FillRule.NonZero).extrude(high_mm)


def rubber_at_the_board(gloved: m3.Manifold, body: m3.Manifold, high_mm: float) -> float:
    """Rubber between the board and the flange's top [mm3]."""
    return (gloved - body).split_by_plane((0.0, 0.0, 1.0), high_mm)[1].volume()


@pytest.mark.parametrize("units", UnitSystem)
@pytest.mark.parametrize("name", ["stump", "figure", pytest.param("demo", marks=pytest.mark.slow)])
def test_rubber_laid_as_told_is_the_plans(name: str, units: UnitSystem) -> None:
    mounted, coated = standing(name)
    high_mm = sum(COATS_MM)
    laid = flange_by_hand(sentences(mounted, coated, units, "trim-flange"), foot_seen(mounted.body))
    assert laid.area == pytest.approx(coated.flange.area_mm2, rel=AGREE)
    body, gloved = bodies.solid(mounted.body), bodies.solid(coated.gloved)
    planned = rubber_at_the_board(gloved, body, high_mm)
    walls = gloved - raised(Polygon(coated.flange.outline).buffer(0.01), high_mm)
    by_hand = rubber_at_the_board(walls + raised(laid, high_mm), body, high_mm)
    assert by_hand == pytest.approx(planned, rel=AGREE)


@pytest.mark.parametrize("units", UnitSystem)
@pytest.mark.parametrize("name", ["figure", pytest.param("table", marks=pytest.mark.slow)])
def test_a_plinth_made_as_told_is_the_plans(name: str, units: UnitSystem) -> None:
    """Height and sides from the sentence, the outline from its drawing; less what of the original stands in it."""
    mounted, coated = standing(name)
    plinth = plinth_plan(mounted)
    assert plinth is not None
    assert mounted.plinth is not None
    text = sentences(mounted, coated, units, "plinth")
    length, breadth, height = lengths("_ by _ by _ high", text)
    outline = ring(plinth.outline)
    made = (raised(outline, height) - bodies.solid(mounted.original)).volume()
    assert made == pytest.approx(mounted.plinth.volume_mm3, rel=AGREE)
    box = np.array(outline.minimum_rotated_rectangle.exterior.coords)
    sides = sorted(float(side) for side in np.linalg.norm(np.diff(box[:3], axis=0), axis=1))
    assert sides == pytest.approx([breadth, length], abs=1.0)


def test_a_flange_as_the_version_before_told_it_would_fail() -> None:
    """The check can fail: the least rectangle about the foot grown by the width is more than 2 % off."""
    mounted, coated = standing("stump")
    square = foot_seen(mounted.body).minimum_rotated_rectangle.buffer(WIDTH_MM, join_style="mitre")
    assert square.area > (1 + AGREE) * coated.flange.area_mm2
