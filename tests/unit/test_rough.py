"""Quantities of an original that water or weight alone tell: ranges carried through, nothing that hangs on a form."""

from __future__ import annotations

import json
from dataclasses import replace
from functools import cache
from itertools import pairwise
from math import ceil, pi

import pytest

from moldwright.commission.reading import commission_from_toml
from moldwright.errors import InputRefused
from moldwright.job.rough import make_rough
from moldwright.job.rough_needs import rough_needs, widened
from moldwright.materials import library
from moldwright.plan.cast import CastWay
from moldwright.plan.cautions import Severity
from moldwright.plan.json_text import plan_from_json
from moldwright.plan.mixes import MixKind
from moldwright.plan.needs import NeedGroup, NeedPlan, NeedUnit
from moldwright.plan.original import Source
from moldwright.plan.quantity import Dimension
from moldwright.plan.rough import Lack, RoughPlan
from moldwright.ranges import Range
from moldwright.sheets.rough_text import rough_text
from moldwright.sheets.rough_words import caution_words
from moldwright.sheets.wording import Wording

WATER = 'displaced = "1.90 l"'


@cache
def rough(original: str = WATER, rest: str = "") -> RoughPlan:
    return make_rough(commission_from_toml(f"[original]\n{original}\n{rest}"), library())


def refused(original: str, rest: str = "") -> InputRefused:
    with pytest.raises(InputRefused) as caught:
        rough(original, rest)
    return caught.value


def wide(found: Range) -> float:
    return (found.high - found.low) / 2 / found.likely


def test_water_alone_gives_volume_surface_and_height_as_ranges() -> None:
    """Water by its bucket (2 %, common practice); no body has less surface than the ball (isoperimetric inequality)."""
    original = rough().original
    assert original.volume_ml.likely == pytest.approx(1900.0)
    assert 0.015 < wide(original.volume_ml) < 0.03
    assert original.area_cm2.low >= (36 * pi * original.volume_ml.low**2) ** (1 / 3)
    assert original.height_mm.low < original.height_mm.likely < original.height_mm.high
    assert (original.source, original.also) == (Source.WATER, ())


def test_weight_narrows_water_and_stands_alone() -> None:
    """1.65 g/ml x 1.9 l = 3.135 kg."""
    weight = 'weight = "3.135 kg"\ndensity = "1.650 g/ml"'
    both, alone = rough(f"{WATER}\n{weight}").original, rough(weight).original
    assert (both.source, both.also) == (Source.WATER, (Source.WEIGHT,))
    assert alone.source is Source.WEIGHT
    assert alone.volume_ml.likely == pytest.approx(1900.0, rel=1e-3)
    assert wide(both.volume_ml) < min(wide(rough().original.volume_ml), wide(alone.volume_ml))


def test_water_and_weight_that_contradict_are_the_usual_stop() -> None:
    found = refused(f'{WATER}\nweight = "1.2 kg"\ndensity = "1.650 g/ml"')
    assert found.code == "sources-disagree"


@pytest.mark.parametrize(
    ("original", "rest", "code"),
    [
        ('weight = "3 kg"\ndensity = "1.65 g/ml"\nsolid = false', "", "volume-unknown"),
        ('weight = "3 kg"', "", "density-unknown"),
        ('displaced = "0.5 ml"', "", "value-out-of-range"),
        ('displaced = "2000 l"', "", "value-out-of-range"),
        (f'{WATER}\nheight = "1.9 m"', "", "height-unlike-volume"),
        (f'{WATER}\nheight = "30 mm"', "", "height-unlike-volume"),
        (WATER, '[mold]\nshell = "printed"', "printed-shell-without-scan"),
        (WATER, "[mold]\npieces = 3", "pieces-without-form"),
        (WATER, '[mold]\nflange = "15 mm"\nthickness = "10 mm"', "flange-narrow"),
    ],
)
def test_refused(original: str, rest: str, code: str) -> None:
    assert refused(original, rest).code == code


def test_a_hollow_pieces_weight_only_bounds_water_from_below() -> None:
    weight = 'weight = "1.2 kg"\ndensity = "1.650 g/ml"\nsolid = false'
    assert rough(f"{WATER}\n{weight}").original.volume_ml.likely == pytest.approx(1900.0, rel=0.01)


def test_a_told_height_stays_as_told() -> None:
    found = rough(f'{WATER}\nheight = "190 mm"')
    assert found.original.height_mm == Range.exactly(190.0)
    assert "original.height" not in [each.key for each in found.assumed]
    assert "original.height" in [each.key for each in rough().assumed]


def test_gaps_are_in_a_volume_already_and_it_is_said() -> None:
    gaps = 'gaps = [{where = "chin", depth = "12 mm", width = "20 mm"}]'
    found = rough(f"{WATER}\n{gaps}")
    assert found.original == rough().original
    assert ("original.gaps", "not used") in [(each.key, each.value) for each in found.assumed]


def test_the_range_goes_into_rubber_cast_shell_and_list() -> None:
    found = rough()
    for amount in (*(coat.mixed_g for coat in found.glove.coats), found.glove.flange_g, found.shell.dry_g):
        assert 0.15 < wide(amount) < 0.8
    assert found.glove.packing_g.high > 5 * found.glove.packing_g.low
    assert 0.2 < wide(found.glove.mixed_g) < 0.7
    assert wide(found.cast.volume_ml) < 0.15
    rubber = [need for need in found.needs if need.kind == "rubber"]
    assert all(need.amount.low < need.amount.likely < need.amount.high for need in rubber)
    assert sum(need.amount.high for need in rubber) > found.glove.mixed_g.high * 0.95


def test_a_cast_of_more_water_takes_as_much_more_and_so_does_its_edition() -> None:
    """Volumes are in proportion, surfaces of like bodies to the power 2/3: eight times the water, four times the coats,
    within a bend of the rubber (Steiner's formula)."""
    small, large = rough('displaced = "0.500 l"'), rough('displaced = "4.00 l"')
    assert large.cast.volume_ml.likely / small.cast.volume_ml.likely == pytest.approx(8.0, rel=0.01)
    ratio = large.glove.coats[2].mixed_g.likely / small.glove.coats[2].mixed_g.likely
    assert ratio == pytest.approx(4.0, rel=0.12)
    one, twelve = rough(WATER), rough(WATER, "[edition]\ncount = 12")
    name = "urethane-standard-a"
    a, b = (next(n.amount.likely for n in each.needs if n.id == name) for each in (one, twelve))
    assert b > 9 * a


def test_cups_are_one_of_each_and_counted_from_few_to_many() -> None:
    found = rough()
    assert {each.for_ for each in found.cups} == {MixKind.COAT, MixKind.SKIN, MixKind.BACK_FILL}
    for each in found.cups:
        assert 1 <= each.count.low <= each.count.likely <= each.count.high
        assert each.count.high == ceil(each.count.high)
        assert each.cup.parts[-1].scale_reads_g == pytest.approx(each.cup.mass_g, abs=0.05)
        assert each.halved is (each.cup.mass_g >= 2 * each.cup.smallest_batch_g)
    coats = [each for each in found.cups if each.for_ is MixKind.COAT]
    for each, coat in zip(coats, found.glove.coats, strict=True):
        assert each.coat == coat.coat
        assert each.count.high * each.cup.mass_g >= coat.mixed_g.high


def test_gypsum_is_told_by_the_bucket_without_halves() -> None:
    found = rough(WATER, '[mold]\nshell = "fiber-reinforced gypsum"')
    buckets = [each for each in found.cups if each.for_ is MixKind.SHELL]
    assert len(buckets) == 1
    assert buckets[0].count.low < buckets[0].count.high


def test_it_says_what_it_lacks_and_what_would_give_it() -> None:
    assert rough().lacks == tuple(Lack)
    assert rough().given_by == (Source.TAPE, Source.PHOTOS, Source.SCAN)


FORM_KEYS = {
    "seam", "seam_mm", "seam_line", "pieces", "mouth", "flange", "removal", "draw", "spots", "small_spots", "plinth",
    "steps", "step", "totals", "outline", "holes", "file",
}  # fmt: skip


def keys_in(tree: object) -> set[str]:
    if isinstance(tree, dict):
        return set(tree) | {key for value in tree.values() for key in keys_in(value)}
    return {key for value in tree for key in keys_in(value)} if isinstance(tree, list) else set()


def test_nothing_in_the_file_hangs_on_a_form() -> None:
    tree = json.loads(rough_text(rough()))
    assert not FORM_KEYS & keys_in(tree)
    assert tree["kind"] == "quantities only"
    assert "draw_direction" not in json.dumps(tree)


FORM_WORDS = ("half 1", "half 2", "undercut", "register", "template", "step ", "seam", "lapped", "along the draw")


def test_no_caution_speaks_of_seam_halves_or_steps() -> None:
    found = rough()
    told = [caution_words(each, Wording(found.units)).lower() for each in found.cautions]
    assert len(told) > 20
    assert not [(word, text) for word in FORM_WORDS for text in told if word in text]


def test_no_caution_quotes_a_likely_amount_as_sure() -> None:
    """What they quote are words, what a cup holds, which is true whatever the form, and the heaviest lift."""
    for each in rough().cautions:
        for quantity in each.quantities:
            in_cup = each.rule == "heavy-cup" and quantity.name in ("cup.mass", "stated.mass")
            words = quantity.measure in (Dimension.WORD, Dimension.CODES, Dimension.CODES_IN_FULL)
            assert words or in_cup or each.rule in ("lift", "thick-mix", "powder-held-back"), each.rule


def test_cautions_stand_on_what_they_concern() -> None:
    """Isocyanate on the cast, hot plaster on the shell, latex gloves on the rubber: common practice, no source."""
    at = {(each.rule, each.for_) for each in rough().cautions}
    assert ("isocyanate", NeedGroup.CASTING) in at
    assert ("isocyanate", NeedGroup.RUBBER) not in at
    assert ("hot-plaster", NeedGroup.SHELL) in at
    assert ("gloves-latex", NeedGroup.RUBBER) in at
    assert ("defer", NeedGroup.PROTECTION) in at
    assert {each.severity for each in rough().cautions} >= {Severity.STOP, Severity.HEED}


def test_a_caution_is_in_full_where_it_is_first_said() -> None:
    solvents = [each for each in rough().cautions if each.rule == "solvent"]
    assert len(solvents) > 1
    assert [len(caution_words(each, Wording(rough().units))) for each in solvents] == sorted(
        (len(caution_words(each, Wording(rough().units))) for each in solvents), reverse=True
    )
    assert solvents[0].lines[0].say == "caution.solvent"


def test_a_pair_that_does_not_go_together_is_told() -> None:
    """Sulfur clay stops the cure of addition-cure silicone: common practice, no source."""
    found = rough(f'{WATER}\nmaterial = "sulfur clay"')
    pairs = [each for each in found.cautions if each.between == ("original", "rubber")]
    assert any(each.severity is Severity.STOP for each in pairs)


def test_what_is_worn_is_bought() -> None:
    worn = {need.id for need in rough().needs if need.for_ is NeedGroup.PROTECTION}
    assert {"vinyl-gloves", "goggles", "half-mask", "dust-respirator"} <= worn


def test_a_small_piece_may_be_solid_and_any_piece_is_told_that_it_may() -> None:
    assert CastWay.SOLID in rough('displaced = "20 ml"').cast.ways
    found = rough()
    assert found.cast.ways == (CastWay.FILLED, CastWay.SOLID)
    assert found.cast.solid_g.likely > found.cast.mass_g.likely
    assert rough(WATER, "[cast]\nsolid = true").cast.ways == (CastWay.SOLID,)


def test_a_shop_without_a_scale_has_cups_to_marks() -> None:
    found = rough(WATER, '[shop]\nmeasure = "volume"')
    assert found.marks_ml == 2.0
    assert all(each.cup.marked for each in found.cups)


def test_the_same_commission_gives_the_same_bytes() -> None:
    again = make_rough(commission_from_toml(f"[original]\n{WATER}\n"), library())
    assert rough_text(again) == rough_text(rough())
    assert again.plan_hash != rough('displaced = "1.91 l"').plan_hash


def test_it_is_not_read_as_a_plan() -> None:
    with pytest.raises(InputRefused) as caught:
        plan_from_json(rough_text(rough()))
    assert caught.value.code == "quantities-only"


def need(low: float, likely: float, high: float, unit: NeedUnit = NeedUnit.GRAM, id_: str = "a") -> NeedPlan:
    return NeedPlan("", id_, "", Range(low, likely, high), unit, NeedGroup.RUBBER)


def test_bounds_of_hand_and_form_add_as_squares() -> None:
    """3-4-5: JCGM 100:2008, 5.1.2, independent quantities."""
    assert widened(Range(97.0, 100.0, 103.0), [96.0, 104.0]) == Range(95.0, 100.0, 105.0)
    assert widened(Range(0.0, 0.0, 0.0), [2.0, 5.0]) == Range(0.0, 0.0, 5.0)
    assert widened(Range.exactly(10.0), [12.0, 13.0]).low == 10.0


def test_whole_pieces_are_enough_and_what_only_a_corner_asks_for_is_listed() -> None:
    rows = rough_needs([need(2, 2, 2, NeedUnit.EACH)], [[need(3, 3.0, 3, NeedUnit.EACH), need(1, 4.0, 9, id_="b")], []])
    assert [(each.id, each.amount) for each in rows] == [("a", Range(0.0, 2.0, 3.0)), ("b", Range(0.0, 0.0, 4.0))]


def test_wider_volumes_only_widen() -> None:
    """A bucket read to the deciliter tells less than one read to ten milliliters."""
    coarse, fine = rough('displaced = "1.9 l"'), rough('displaced = "1.900 l"')
    for pair in ((coarse.cast.volume_ml, fine.cast.volume_ml), (coarse.original.volume_ml, fine.original.volume_ml)):
        assert all(wide(a) > wide(b) for a, b in pairwise(pair))


def test_ranges_stand_in_order_for_every_shop() -> None:
    for original in ('displaced = "12 ml"', WATER, 'displaced = "60 l"'):
        found = rough(original)
        assert all(need.amount.low <= need.amount.likely <= need.amount.high for need in found.needs)
        assert replace(found, name="x").original == found.original
