"""What is worn is bought: the list follows the steps' cautions, and each caution's words name what it asks for.

Classes: EN 14387 (filters A2, with a particle filter P2 or P3 of EN 143), EN 149 (FFP), NIOSH 42 CFR 84 (N95, P100,
OV), from memory. When what is worn: common practice, no source; the safety data sheet comes first.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import replace
from importlib import resources

import pytest
from steps_context import context, measures
from told import done, told

from moldwright.commission.orders import CastOrder, ShopOrder, UnitSystem
from moldwright.materials import library
from moldwright.materials.gear import Gear, gear_for
from moldwright.materials.hazards import tag_words
from moldwright.plan.needs import NeedGroup, NeedPlan
from moldwright.quantities.quantities import Quantities
from moldwright.ranges import Range
from moldwright.sheets.need_words import need_name
from moldwright.sheets.wording import Wording
from moldwright.steps.gear import BOUGHT, Worn, gear_needs

LIBRARY = library()
SAID = (
    (r"respirator for fine dust|and metal: sand wet or with extraction, respirator", {Gear.DUST_RESPIRATOR}),
    (r"^(Isocyanate|Peroxide).*respirator", {Gear.VAPOR_RESPIRATOR}),
    (r"dust mask", {Gear.DUST_MASK}),
    (r"[Gg]oggles|eye protection|eye and ear protection", {Gear.GOGGLES}),
    (r"ear protection", {Gear.EARS}),
    (r"cut-resistant glove", {Gear.CUT_GLOVE}),
    (r"(?<!no )(?<!latex )\b[Gg]loves(?! that| at)|vinyl", {Gear.GLOVES}),
    (r"gloves that the safety data sheet names", {Gear.SOLVENT_GLOVES}),
)


def said(text: str) -> set[Gear]:
    return {gear for pattern, gears in SAID if re.search(pattern, text) for gear in gears}


def test_every_usual_caution_buys_what_its_words_name_and_nothing_else() -> None:
    text = resources.files("moldwright.steps").joinpath("data", "cautions.toml").read_text(encoding="utf-8")
    for rule, row in tomllib.loads(text)["caution"].items():
        assert set(map(Gear, row.get("gear", []))) == said(row["text"]), rule


def test_every_word_about_a_tag_buys_what_it_names() -> None:
    for tag, text in tag_words().items():
        assert set(gear_for([tag])) == said(text), tag


def listed(job: Quantities, own: str = "") -> dict[str, NeedPlan]:
    return {need.id: need for need in done(job, own).gear}


def test_every_gear_is_bought() -> None:
    assert set(BOUGHT) == set(Gear)
    for rows in BOUGHT.values():
        for id_, worn in rows:
            assert LIBRARY.consumable(id_).per
            assert worn in Worn


def test_isocyanate_asks_for_a_respirator_with_filters_of_a_class() -> None:
    rows = listed(context())
    assert "half-mask" in rows
    assert re.search(r"A2-P3 \(EN 14387\).*OV/P100 \(NIOSH\)", rows["vapor-cartridge"].material)
    assert "safety data sheet" in " ".join(LIBRARY.consumable("vapor-cartridge").cautions)
    gypsum = context(cast=CastOrder(resin="modified-gypsum", powder="none", backfill="none"))
    assert not {"half-mask", "vapor-cartridge"} & set(listed(gypsum))


@pytest.mark.parametrize(
    ("rule", "id_"),
    [
        ("blade", "cut-glove"),
        ("power-tool", "ear-protection"),
        ("metal-dust", "dust-respirator"),
        ("plaster-dust", "dust-mask"),
        ("isocyanate", "vapor-cartridge"),
        ("skin-eyes", "goggles"),
    ],
)
def test_what_stands_on_a_step_is_on_the_list_and_what_does_not_is_not(rule: str, id_: str) -> None:
    work, order = done(context()), context().commission
    people, casts = order.shop.people, order.edition.count
    assert any(each.rule == rule and each.step for each in work.cautions)
    assert id_ in listed(context())
    without = [replace(each, gear=()) if rule in each.rule else each for each in work.cautions]
    gear = next(gear for gear, rows in BOUGHT.items() if id_ in dict(rows))
    without = [replace(each, gear=tuple(g for g in each.gear if g is not gear)) for each in without]
    assert id_ not in {need.id for need in gear_needs(work.steps, without, people, casts, LIBRARY)}


def test_no_power_tool_no_ear_protection() -> None:
    """No saw without a plinth, no buffer without metal."""
    flat = measures(cavity__plinth_ml=0.0, cavity__plinth_height_mm=0.0)
    plain = context(cast=CastOrder(powder="marble"), volumes=flat)
    assert "ear-protection" not in listed(plain)
    assert "ear-protection" in listed(context(cast=CastOrder(powder="marble")))


def test_a_step_that_takes_two_dresses_two() -> None:
    """The shell is opened and the glove peeled by two, whatever the shop's hands: masks and cut-resistant gloves for
    both, and the row says where; by hand from the steps' own words, what is worn once or a day: common practice."""
    job = context()
    made, rows = done(job), listed(job)
    words = Wording(job.commission.shop.units)
    two = {
        step.id for step in made.steps if "Second pair of hands" in [words.line(n, step.quantities) for n in step.needs]
    }
    assert two == {"open-shell", "peel"}
    assert {step.id for step in made.steps if step.people == 2} == two
    order = [step.id for step in made.steps]
    for id_, count in (("cut-glove", 2), ("dust-mask", 2 + 1)):  # the mask: two for the mold, one for its end
        gear = next(gear for gear, bought in BOUGHT.items() if id_ in dict(bought))
        asking = [str(order.index(c.step) + 1) for c in made.cautions if gear in c.gear and c.step in two]
        asking = list(dict.fromkeys(asking))
        assert rows[id_].amount == Range.exactly(float(count))
        s = "s" if len(asking) > 1 else ""
        assert f"for each of 2 persons at step{s} {', '.join(asking)}" in need_name(rows[id_], UnitSystem.METRIC, order)
    three = listed(context(shop=ShopOrder(people=3)))
    assert three["cut-glove"].amount == Range.exactly(3.0)
    assert need_name(three["cut-glove"], UnitSystem.METRIC, order).endswith("for each of 3 persons")


def test_two_people_and_24_casts() -> None:
    """Masks of one use: one for the mold, one for each cast, one for its end; what lasts: one a person.

    Plaster and talc are dust when the mold is made and stored, metal and resin with each cast."""
    one, two = listed(context()), listed(context(shop=ShopOrder(people=2)))
    assert one["goggles"].amount == Range.exactly(2.0)
    assert one["ear-protection"].amount == Range.exactly(1.0)
    assert two["goggles"].amount == Range.exactly(2.0)
    assert one["dust-mask"].amount == Range.exactly(3.0)  # two open the shell
    assert two["dust-mask"].amount == Range.exactly(4.0)
    assert two["cut-glove"].amount == Range.exactly(2.0)
    assert one["dust-respirator"].amount == Range.exactly(24.0)
    assert {need.for_ for need in one.values()} == {NeedGroup.PROTECTION}
    assert one["vinyl-gloves"].amount.likely > 24 * 2


@pytest.mark.parametrize("own", ["", 'drop = ["flash"]', 'drop = ["trim-plinth", "burnish", "talc", "store-mold"]'])
def test_list_and_steps_agree_whatever_the_maker_leaves_out(own: str) -> None:
    work = done(context(), own)
    worn = {gear for each in work.cautions if each.step for gear in each.gear}
    assert {need.id for need in work.gear} == {id_ for gear in worn for id_, _ in BOUGHT[gear]}


def test_what_a_step_wants_at_hand_to_wear_its_cautions_ask_for() -> None:
    """The words at the head of a step name the same mask as its cautions."""
    for cast in (CastOrder(), CastOrder(powder="marble"), CastOrder(resin="modified-gypsum")):
        made = told(context(cast=cast))
        work = done(context(cast=cast))
        for step in made.steps:
            gear = {g for each in work.cautions if each.step == step.id for g in each.gear}
            wanted = {g for g in (Gear.DUST_MASK, Gear.DUST_RESPIRATOR) if str(g) in " ".join(step.needs).casefold()}
            assert wanted <= gear, step.id
