"""A shell of fiber-reinforced gypsum in buckets: by hand from its sheet, each laid before it stiffens."""

from __future__ import annotations

from dataclasses import replace
from math import fsum

import pytest
from made_up_job import commission, job_of, volumes
from steps_context import context, step_of

from moldwright.commission.orders import MoldOrder, ShopOrder
from moldwright.errors import NoSafePlan
from moldwright.materials import library
from moldwright.plan.mixes import MixFor, MixKind, MixPlan, PartKind
from moldwright.quantities.gypsum import gypsum_mixes
from moldwright.quantities.quantities import Quantities
from moldwright.units.system import UnitSystem
from moldwright.ways import Change

GYPSUM = MoldOrder(shell="fiber-gypsum")
SHEET = library().shell("fiber-gypsum")
PIECES = {piece: MixFor(MixKind.SHELL, piece=piece) for piece in (2, 1)}


def planned(volume_ml: float = 640.0, second: float = 0.5, **shop: object) -> Quantities:
    order = commission(mold=GYPSUM, shop=replace(ShopOrder(), **shop))
    return job_of(order, measures=volumes(shell__volume_ml=volume_ml, shell__shares=(1.0 - second, second)))


def part_g(mixes: tuple[MixPlan, ...], kind: PartKind) -> float:
    return fsum(part.mass_g for mix in mixes for part in mix.parts if part.kind is kind)


@pytest.mark.parametrize(("volume_ml", "second"), [(640.0, 0.5), (640.0, 0.7), (4300.0, 0.41)])
def test_the_buckets_hold_what_the_shell_weighs(volume_ml: float, second: float) -> None:
    """1.7 g/ml when dry: of 1 g of gypsum, 27.0225/145.149 g of water and 0.02 g of fiber stay; it is mixed with 0.30 g
    of water; 8 % is lost. Buckets of a half are alike, in whole grams of the smaller of water and gypsum: at most 5.4 g
    over a bucket."""
    job = planned(volume_ml, second)
    gypsum_g = volume_ml * 1.7 * 1.08 / (1 + 27.0225 / 145.149 + 0.02)
    whole_g = gypsum_g * 1.32
    halves = [fsum(mix.mass_g for mix in job.mixes_for(PIECES[piece])) for piece in (2, 1)]
    slack_g = 5.4 * len(job.shell_mixes)
    assert whole_g - 1.0 <= sum(halves) <= whole_g + slack_g
    assert halves[0] == pytest.approx(second * whole_g, abs=slack_g)
    for kind, share in ((PartKind.GYPSUM, 1.0), (PartKind.WATER, 0.30), (PartKind.FIBER, 0.02)):
        assert part_g(job.shell_mixes, kind) == pytest.approx(share * gypsum_g, abs=slack_g)


def test_water_first_then_gypsum_then_fiber_to_running_totals() -> None:
    for mix in planned().shell_mixes:
        assert [part.kind for part in mix.parts] == [PartKind.WATER, PartKind.GYPSUM, PartKind.FIBER]
        totals = [part.scale_reads_g for part in mix.parts]
        assert totals == sorted(totals)
        assert totals[-1] == mix.mass_g
        assert all(total % 1.0 == 0.0 for total in totals)


@pytest.mark.parametrize("units", list(UnitSystem))
@pytest.mark.parametrize("bucket_ml", [600.0, 5000.0, 20_000.0])
def test_a_bucket_fits_its_clock_and_its_brim(bucket_ml: float, units: UnitSystem) -> None:
    """Half of 20 min of setting, 4 min of it to mix, 100 g/min by hand: 600 g; half a bucket at most."""
    job = planned(4300.0, bucket_ml=bucket_ml, units=units)
    for mix in job.shell_mixes:
        assert mix.work_by_s == 600.0
        assert fsum(task.duration_s for task in mix.tasks) <= 600.0
        assert mix.mass_g <= 600.0
        assert mix.parts[-1].reads_ml <= 0.5 * bucket_ml + 1.0
    assert part_g(job.shell_mixes, PartKind.GYPSUM) > 0


def test_what_is_bought_is_what_the_buckets_hold() -> None:
    job = planned()
    bought = {need.id: need.amount for need in job.needs}
    for id_, kind in ((SHEET.id, PartKind.GYPSUM), ("gypsum-water", PartKind.WATER), ("gypsum-fiber", PartKind.FIBER)):
        held_g = part_g(job.shell_mixes, kind)
        assert bought[id_].likely == pytest.approx(held_g, abs=0.06)
        assert bought[id_].low == pytest.approx(held_g * 1.5 / 1.7, abs=0.06)


def test_each_piece_mixes_its_own_buckets() -> None:
    job = context(mold=GYPSUM)
    for step, piece in (("shell-2", 2), ("shell-1", 1)):
        mine = job.mixes_for(PIECES[piece])
        made = step_of(job, step)
        assert mine
        assert made.mixes == tuple(mix.id for mix in mine)
        assert any(f"{len(mine)} bucket" in text for text in made.needs)
        assert any("10 min" in text for text in made.do)
    assert not context().shell_mixes
    assert step_of(context(), "shell-2").mixes == ()


def test_a_gypsum_that_stiffens_in_the_bucket_is_refused() -> None:
    fast = library({"own.toml": '[shell.fiber-gypsum]\nset = "6 min"\n'})
    with pytest.raises(NoSafePlan, match="shell-sets-too-soon") as refused:
        job_of(commission(mold=GYPSUM), fast)
    assert (refused.value.actual, refused.value.limit) == (180, 240)
    assert refused.value.way == Change("mold.shell")
    assert job_of(commission(), fast)


def test_other_shells_have_no_buckets() -> None:
    for id_ in ("plaster-bandage", "printed"):
        assert gypsum_mixes(library().shell(id_), 1000.0, 0.5, ShopOrder()) == ()
