"""What can hurt stands on the first step that opens its can: a patch test mixes rubber, wetting powder mixes resin."""

from __future__ import annotations

import pytest
from steps_context import context
from told import told

from moldwright.commission.orders import CastOrder, MoldOrder
from moldwright.materials import Library, library
from moldwright.quantities.quantities import Quantities


def rules_on(job: Quantities, step: str, known: Library | None = None) -> dict[str, str]:
    return {caution.rule: caution.severity for caution in told(job, "", known).cautions if caution.step == step}


@pytest.mark.parametrize(
    ("rubber", "rule", "severity"),
    [
        ("urethane-a30", "isocyanate", "stop"),
        ("condensation-cure-a25", "tin-catalyst", "heed"),
        ("addition-cure-a10-slow", "gloves-latex", "stop"),
        ("latex", "ammonia", "heed"),
    ],
)
def test_a_patch_test_opens_the_rubber(rubber: str, rule: str, severity: str) -> None:
    """GHS classes of urethane parts (H334), tin catalysts and ammonia; latex gloves spoil the test itself."""
    on = rules_on(context(mold=MoldOrder(rubber=rubber)), "patch-test")
    assert on[rule] == severity
    assert "hazards.rubber" not in rules_on(context(mold=MoldOrder(rubber=rubber)), "coat-1-mix")


def test_without_a_patch_test_the_first_coat_opens_it() -> None:
    job = context(mold=MoldOrder(rubber="urethane-a30"), findings=())
    assert {"isocyanate", "hazards.rubber"} <= set(rules_on(job, "coat-1-mix"))


@pytest.mark.parametrize(("resin", "rule"), [("polyester", "polyester"), ("modified-gypsum", "plaster-dust")])
def test_powder_that_is_sifted_in_meets_the_stirred_mix(resin: str, rule: str) -> None:
    """Peroxide and metal powder can explode; amines burn; plaster is dust before it is wet."""
    job = context(cast=CastOrder(resin=resin))
    assert rule in rules_on(job, "powder-wet")


@pytest.mark.parametrize("side", ["A", "B"])
def test_powder_in_a_urethane_is_stopped_where_its_first_can_is_opened(side: str) -> None:
    """Whichever side takes the powder: a maker does not know which one holds the isocyanate (GHS H334)."""
    own = library({"own.toml": f'[resin.urethane-standard]\npowder_part = "{side}"'})
    on = rules_on(context(known=own), "powder-wet", own)
    assert on["isocyanate"] == "stop"
    assert "hazards.resin" in on
    assert "hazards.resin" not in rules_on(context(known=own), "skin", own)


def test_what_thickens_urethane_rubber_is_warned_of() -> None:
    """GHS H314 and H317 of an amine, by their meaning: the codes stand once, where the materials are laid out."""
    on = {c.rule: c.text for c in told(context(mold=MoldOrder(rubber="urethane-a30"))).cautions}
    assert "urns skin and eyes" in on["hazards.thixotrope"]
