"""Latex in the work: many thin layers, each dried, no clock, nothing packed wet. Common practice, no source."""

from math import ceil

import pytest
from steps_context import VOLUMES, changed, context, step_of

from moldwright.commission.orders import CoatOrder, MoldOrder, ShopOrder
from moldwright.errors import NoSafePlan
from moldwright.mold.measures import FillSpot, SpotKind
from moldwright.plan.mixes import RUBBER_KINDS, MixFor, MixKind
from moldwright.quantities.rubber import packed_layers
from moldwright.steps.waits import Wait, wait_s
from moldwright.ways import Change

LATEX = MoldOrder(rubber="latex")
JOB = context(mold=LATEX)
DRY_MIN = wait_s(Wait.TACK_WINDOW, JOB).likely / 60.0
"""What one layer takes to dry in this shop."""


def test_every_layer_of_a_coat_dries() -> None:
    """A coat of n layers waits n times: n - 1 while it is laid, once before the next coat."""
    for coat in JOB.rubber.coats:
        laid, looked = step_of(JOB, coat.id), step_of(JOB, f"{coat.id}-look")
        assert looked.wait_min is not None
        assert laid.wait_min is not None
        assert laid.wait_min.likely + looked.wait_min.likely == pytest.approx(coat.passes * DRY_MIN, abs=0.2)
        assert any(f"{coat.passes} thin layers" in text for text in laid.do)
    coats = (CoatOrder("thin", 0.25), CoatOrder("build", 2.75))
    two = MoldOrder(rubber="latex", thickness_mm=3.0, coats=coats)
    whole = context(mold=two, volumes=changed(VOLUMES, glove__coat_ml=(20.0, 200.0)))
    assert step_of(whole, "coat-1").wait_min is None


def test_the_layers_are_told_as_thick_as_they_are() -> None:
    """4 mm in coats of 0.6, 1.4 and 2 mm by layers of 0.3 mm: 2, 5 and 7."""
    assert [coat.passes for coat in JOB.rubber.coats] == [2, 5, 7]
    assert all("0.3 mm when dry" in " ".join(step_of(JOB, coat.id).do) for coat in JOB.rubber.coats)


def test_no_step_of_latex_knows_a_clock_or_a_tacky_coat() -> None:
    ids = [id_ for coat in JOB.rubber.coats for id_ in (f"{coat.id}-mix", coat.id, f"{coat.id}-look")]
    for id_ in (*ids, "fill", "hold-glove"):
        said = " ".join(step_of(JOB, id_).texts)
        assert not [word for word in ("work-by", "tacky", "gels", "Two thin passes", "gauge") if word in said]


def test_a_cup_of_latex_has_no_clock() -> None:
    """One part: it is limited by the cup alone, three quarters of 500 ml, however long mixing and laying take."""
    slow = context(mold=LATEX, shop=ShopOrder(mix_min=60.0, lay_g_per_min=1.0))
    cups = [mix for mix in slow.mixes if mix.for_.kind in RUBBER_KINDS]
    assert {mix.work_by_s for mix in cups} == {None}
    density_g_ml = slow.basis.chosen.rubber.density_a_g_ml.likely
    for coat in slow.rubber.coats:
        mine = [mix.mass_g for mix in slow.mixes_for(MixFor(MixKind.COAT, coat.id))]
        assert len(mine) == ceil(sum(mine) / (0.75 * 500.0 * density_g_ml * 1.01))
    assert all(mix.work_by_s is not None for mix in context().mixes)


def test_what_is_packed_dries_in_thin_layers() -> None:
    """10 mm deep in layers of 2 mm: five, each as many times as long as it is thicker than one of a coat."""
    spots = (FillSpot((0.0, 0.0, 60.0), 10.0, 6.0, SpotKind.UNDERCUT),)
    job = context(mold=LATEX, volumes=changed(VOLUMES, glove__fill_ml=6.0, glove__spots=spots, glove__crevice_ml=0.0))
    packed = step_of(job, "fill")
    assert packed.wait_min is not None
    assert packed.wait_min.likely == pytest.approx(5 * DRY_MIN * 2.0 / 0.3, rel=0.001)
    assert any("5 layers in the deepest" in text for text in packed.do)
    assert any(need.id == "latex-filler" for need in job.needs)
    assert not any(need.id == "latex-filler" for need in context().needs)
    tacky = step_of(context(), "coat-2-look").wait_min
    assert step_of(context(), "fill").wait_min == tacky  # cured in depth: it only gets tacky, once
    assert [packed_layers(job.basis.chosen.rubber, depth_mm) for depth_mm in (0.0, 2.0, 2.1, 10.0)] == [0, 1, 2, 5]


def test_what_is_too_deep_to_dry_is_refused_with_what_to_do() -> None:
    spots = (FillSpot((0.0, 0.0, 60.0), 40.0, 6.0, SpotKind.UNDERCUT),)
    volumes = changed(VOLUMES, glove__fill_ml=6.0, glove__spots=spots, glove__crevice_ml=0.0)
    with pytest.raises(NoSafePlan, match="too-deep-to-dry") as refused:
        context(mold=LATEX, volumes=volumes)
    assert (refused.value.actual, refused.value.limit) == (40.0, 24.0)
    assert refused.value.way == Change("mold.rubber")
    assert context(volumes=volumes)
