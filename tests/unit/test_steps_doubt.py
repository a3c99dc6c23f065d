"""What a maker reads of an original that was not scanned, on which step, and what is refused."""

from dataclasses import replace

import pytest
from made_up_job import VOLUMES, commission, job_of
from told import Told, told

from moldwright.commission.orders import ShopOrder
from moldwright.commission.reading import commission_from_toml
from moldwright.errors import InputRefused
from moldwright.job.planning import make_plan
from moldwright.materials import library
from moldwright.plan.cautions import Severity
from moldwright.plan.known import Known
from moldwright.plan.original import Source
from moldwright.ranges import NO_SPREAD, Range, Spread
from moldwright.scan.scan import Scan
from moldwright.store.memory import NoStore

SPREAD = Spread(Range(0.96, 1.0, 1.04), Range(0.98, 1.02, 1.08), Range(0.95, 1.0, 1.05), unseen_ml=12.0)


def work_of(spread: Spread = SPREAD, shop: ShopOrder | None = None) -> Told:
    order = commission(shop=shop) if shop else commission()
    return told(job_of(order, library(), replace(VOLUMES, spread=spread)))


def test_a_scan_is_told_of_no_doubt() -> None:
    assert not [each for each in work_of(NO_SPREAD).cautions if each.rule.startswith("doubt")]


def test_bounds_stand_on_the_first_coat_the_last_and_the_skin() -> None:
    made = work_of()
    where = {each.rule: each.step for each in made.cautions if each.rule.startswith("doubt")}
    assert where.pop("doubt-holes") == "receive"
    assert "8 mm" in made.on("receive")  # twice the 4 mm of all coats: common practice, no source
    assert where == {"doubt-rubber": "coat-1-mix", "doubt-recesses": "coat-3-mix", "doubt-cast": "skin"}
    assert all(each.severity is Severity.HEED for each in made.cautions if each.rule.startswith("doubt"))
    assert "Narrow ones may take up to 12.0 ml" in made.on("coat-3-mix")
    assert "620 ml (598–642)" in made.on("skin")


def test_a_height_that_was_not_scanned_is_true_to_a_few_percent_only() -> None:
    unscanned, scanned = (" ".join(work_of(spread).step("receive").texts) for spread in (SPREAD, NO_SPREAD))
    assert "true to a few percent" in unscanned
    assert "It should read" not in unscanned
    assert "It should read" in scanned
    assert "few percent" not in scanned


def test_a_shop_without_a_scale_reads_milliliters() -> None:
    text = work_of(shop=commission_from_toml('[original]\nfile = "a.stl"\n[shop]\nmeasure = "volume"').shop).on(
        "coat-1-mix"
    )
    said = text[text.index("All rubber together") :].split(":")[0]
    assert " ml" in said
    assert " g" not in said


def test_a_printed_shell_needs_a_scan() -> None:
    order = commission_from_toml('[original]\nfile = "p.stl"\n[mold]\nshell = "printed shell"')
    nothing = Scan.__new__(Scan)
    with pytest.raises(InputRefused) as refused:
        make_plan(order, nothing, library(), NoStore(), lambda *_: None, known=Known(Source.PHOTOS, spread=SPREAD))
    assert refused.value.code == "printed-shell-without-scan"
