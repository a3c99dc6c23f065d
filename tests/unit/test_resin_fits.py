"""A resin does for what it is asked, or the refusal names one that does: times by hand from the sheets."""

from __future__ import annotations

import pytest
from made_up_job import commission, job_of

from moldwright.commission.orders import CastOrder, ShopOrder
from moldwright.errors import InputRefused, NoSafePlan
from moldwright.materials import library
from moldwright.plan.mixes import BACK_FILL, SKIN, TaskKind


def refused(cast: CastOrder, temperature_c: float = 22.0) -> NoSafePlan:
    with pytest.raises(NoSafePlan) as caught:
        job_of(commission(cast=cast, shop=ShopOrder(temperature_c=temperature_c)))
    return caught.value


def test_an_epoxy_of_ninety_minutes_is_no_slushed_skin() -> None:
    wrong = refused(CastOrder(resin="epoxy-slow"))
    assert (wrong.code, wrong.actual) == ("resin-not-fit", "skin")
    for id_ in wrong.remedy.partition("cast.resin: ")[2].partition(")")[0].split(", "):
        job_of(commission(cast=CastOrder(resin=id_)))
    assert job_of(commission(cast=CastOrder(backfill="epoxy-slow"))).mixes_for(BACK_FILL)


def test_what_is_no_skin_is_poured_solid() -> None:
    """As the refusal says: nothing is slushed then."""
    assert "cast.solid = true" in refused(CastOrder(resin="epoxy-slow")).remedy
    for resin in ("epoxy-slow", "urethane-fast"):
        cups = job_of(commission(cast=CastOrder(resin=resin, solid=True))).cast.mixes
        assert cups
        assert not [task for mix in cups for task in mix.tasks if task.kind is TaskKind.SWIRL]


def test_a_fast_resin_is_no_skin_but_fills() -> None:
    """135 s less 30 s of mixing, a third of it for pouring: 35 s."""
    assert refused(CastOrder(resin="urethane-fast")).remedy.count("urethane-standard") == 1
    assert job_of(commission(cast=CastOrder(backfill="urethane-fast"))).mixes_for(BACK_FILL)


def test_too_hot_to_pour_names_a_slower_class() -> None:
    """At 33 degC half of 389 s and less is left of the standard one; clear urethane has its minute still at 28."""
    wrong = refused(CastOrder(), 28.0)
    assert wrong.code == "pot-life-too-short"
    assert wrong.limit == 60 + 180
    assert "urethane-clear" in wrong.remedy or "polyester" in wrong.remedy
    assert wrong.actual is not None


def test_too_cold_to_be_turned_till_it_gels() -> None:
    """Standard urethane lasts 480 s at 23 degC; by exp(60 / R (1 / 278.15 - 1 / 296.15)) 4.8 times as long at 5."""
    wrong = refused(CastOrder(backfill="none"), 5.0)
    assert (wrong.code, wrong.limit) == ("slush-too-long", 1200)
    assert wrong.actual == pytest.approx(480 * 4.84, rel=0.01)
    assert "warm" in wrong.remedy


def test_every_pour_leaves_a_minute_after_stirring() -> None:
    """What mixing leaves of the cup's life, for a skin a third of it, is a minute at least: the demo's ran at 28 s."""
    for resin in ("urethane-standard", "urethane-clear", "polyester", "modified-gypsum"):
        for mix in job_of(commission(cast=CastOrder(resin=resin, powder="marble", backfill=resin))).cast.mixes:
            mixing_s = next(task.duration_s for task in mix.tasks if task.kind is TaskKind.MIX)
            assert mix.work_by_s is not None
            assert (mix.work_by_s - mixing_s) / (3 if mix.for_ == SKIN else 1) >= 60 - 0.1


def test_a_shops_own_sheet_says_for_what_it_is_fit() -> None:
    own = library({"own.toml": '[resin.ours]\nlike = "urethane-standard"\nname = "ours"\nfit = ["back-fill"]'})
    with pytest.raises(NoSafePlan, match="resin-not-fit"):
        job_of(commission(cast=CastOrder(resin="ours")), own)
    with pytest.raises(InputRefused, match="skin, back-fill, solid"):
        library({"own.toml": '[resin.ours]\nlike = "urethane-fast"\nfit = ["slush"]'})
