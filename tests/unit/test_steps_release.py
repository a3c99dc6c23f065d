"""What is put on the original so that the rubber lets go: thinned with what, how much, in how many coats, and its wait.

Petroleum jelly is brushed on warm, or thinned by about half with mineral spirits, which burn and must flash off before
the rubber (common practice, no source; GHS H226 of mineral spirits, the supplier's sheet overrides).
"""

from __future__ import annotations

import pytest
from made_up_job import commission, job_of
from told import ToldStep, told

from moldwright.commission.orders import CastOrder, MoldOrder


def release(id_: str) -> ToldStep:
    return told(job_of(commission(mold=MoldOrder(release=id_)))).step("release")


def test_what_is_thinned_says_with_what_and_how_much_and_flashes_off() -> None:
    step = release("petroleum-jelly-thinned")
    [thin] = [line for line in step.do if "mineral spirits" in line]
    assert "50 %" in thin
    assert any("flash off" in line for line in step.do)
    assert any("2 thin coats" in line for line in step.do)
    assert any("vapor burns" in text for text in step.cautions)
    assert any("take fire by themselves" in text for text in step.cautions)
    assert step.wait_min is not None
    assert step.wait_min.low >= 5.0


def test_plain_grease_has_no_solvent_and_one_coat() -> None:
    step = release("petroleum-jelly")
    assert not [line for line in (*step.do, *step.needs) if "spirits" in line or "coats" in line or "flash" in line]
    assert not [text for text in step.cautions if "vapor burns" in text]


@pytest.mark.parametrize("id_", ["silicone-release", "soap-release", "pva-release", "wax-release"])
def test_as_many_coats_as_the_sheet_has(id_: str) -> None:
    assert any(" thin coats in all" in line for line in release(id_).do)


def test_in_the_mold_too() -> None:
    job = job_of(commission(cast=CastOrder(release="petroleum-jelly-thinned")))
    assert any("50 %" in line and "mineral spirits" in line for line in told(job).step("release-mold").do)
