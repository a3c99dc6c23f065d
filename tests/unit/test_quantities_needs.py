"""The shopping list of the made-up mold, row by row: areas, masses and counts by hand, rates as the sheets tell.

Areas: cavity 0.042 m2, piece 0.04 m2, shell 0.08 m2, seam 0.62 m x 0.02 m = 0.0124 m2. 24 casts by one person.
"""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from made_up_job import VOLUMES, commission, holes, job_of, volumes

from moldwright.commission.orders import CastOrder, CoatOrder, Commission, Measure, MoldOrder, ShopOrder, UnitSystem
from moldwright.geometry.seam_kind import Seam
from moldwright.materials import library
from moldwright.mold.measures import MoldMeasures
from moldwright.plan.mixes import BACK_FILL, RUBBER_KINDS, SKIN, MixKind, PartKind
from moldwright.plan.needs import NeedForm, NeedGroup, NeedPlan, NeedUnit
from moldwright.quantities.need_rows import coated, merged, plain_row, row
from moldwright.quantities.quantities import Quantities
from moldwright.ranges import Range
from moldwright.sheets.need_words import need_name
from moldwright.steps.quoted import job_quoted

LIBRARY = library()
JOB = job_of(commission())
ENDS = ("low", "likely", "high")


def needs(order: Commission | None = None, measures: MoldMeasures = VOLUMES) -> dict[tuple[str, NeedGroup], NeedPlan]:
    job = JOB if order is None else job_of(order, LIBRARY, measures)
    return {(need.id, need.for_): need for need in job.needs}


def amounts(id_: str, group: NeedGroup, order: Commission | None = None, measures: MoldMeasures = VOLUMES) -> Range:
    return needs(order, measures)[id_, group].amount


def times(id_: str, uses: float) -> Range:
    return LIBRARY.consumable(id_).rate_per_use.range * uses


def spare_g(kind: MixKind, part: PartKind, made: Quantities = JOB) -> float:
    """That part in the heaviest cup of a kind."""
    largest = max((mix for mix in made.mixes if mix.for_.kind is kind), key=lambda mix: mix.mass_g)
    return sum(p.mass_g for p in largest.parts if p.kind is part)


def near(found: Range, wanted: Range, off: float) -> None:
    for name in ("low", "likely", "high"):
        assert getattr(found, name) == pytest.approx(getattr(wanted, name), abs=off)


@pytest.mark.parametrize(
    ("id_", "group", "uses"),
    [
        ("board", NeedGroup.RUBBER, 1),
        ("brush", NeedGroup.RUBBER, 2),  # the third coat is laid with a stick
        ("stir-stick", NeedGroup.RUBBER, 5 + 3),  # one for each cup, one for each coat
        ("stir-stick", NeedGroup.CASTING, 3 * 24),
        ("isopropanol", NeedGroup.FINISHING, 24),
        ("felt", NeedGroup.FINISHING, 24),
        ("base-screw", NeedGroup.FINISHING, 24),
        ("mineral-spirits", NeedGroup.FINISHING, 1),
        ("paper-towel", NeedGroup.PROTECTION, 3 + 2 + 3 * 24),  # each coat, two for the shell, three a cast
    ],
)
def test_consumables_by_their_uses(id_: str, group: NeedGroup, uses: int) -> None:
    assert amounts(id_, group) == times(id_, uses)


def test_clamps_are_one_every_100_mm_of_the_flanges_edge_and_of_a_seam_of_two_flanges() -> None:
    """Common practice, no source: 634 mm of edge are 7 clamps, 620 mm of seam 7 more; a lapped seam takes none."""
    for kind, count in ((Seam.WALL, 14), (Seam.LAP, 7)):
        lap_mm = 0.0 if kind is Seam.WALL else 30.0
        measures = volumes(shell__seam=kind, shell__lap_mm=lap_mm, shell__seam_flange_mm=20.0 if lap_mm == 0 else 0.0)
        made = job_of(commission(), LIBRARY, measures)
        assert {need.id: need.amount for need in made.needs}["clamp"] == Range.exactly(float(count))
        assert job_quoted(made)["clamps"].value == count


def test_scissors_are_bought_once_for_bandage_matting_or_a_divider() -> None:
    """What the steps cut with them; a printed shell of a piece without a hole has none of the three."""
    whole, printed = volumes(piece__holes=()), commission(mold=MoldOrder(shell="printed"))
    for order, measures in (
        (commission(), whole),
        (commission(mold=MoldOrder(shell="fiber-gypsum")), whole),
        (printed, volumes(piece__holes=holes(12.0))),
    ):
        assert needs(order, measures)["scissors", NeedGroup.SHELL].amount == Range.exactly(1.0)
    assert ("scissors", NeedGroup.SHELL) not in needs(printed, whole)


@pytest.mark.parametrize(
    ("group", "counts"),
    [
        (NeedGroup.RUBBER, {MixKind.COAT: 3 + 1, MixKind.FILL: 2}),  # packed after two of them
        (NeedGroup.CASTING, {MixKind.SKIN: 24 + 1, MixKind.BACK_FILL: 2 * 24}),
    ],
)
def test_cups_by_what_they_are_for_one_spare_all_of_the_shops_size(
    group: NeedGroup, counts: dict[MixKind, int]
) -> None:
    rows = [need for need in job_of(commission(shop=ShopOrder(cup_ml=650.0))).needs if need.id == "cup"]
    found = {need.cups_for: need for need in rows if need.for_ is group}
    assert {kind: need.amount for kind, need in found.items()} == {k: times("cup", n) for k, n in counts.items()}
    assert {need.size_ml for need in rows} == {650.0}


def test_buckets_for_the_larger_half() -> None:
    job = job_of(commission(mold=MoldOrder(shell="fiber-gypsum"), shop=ShopOrder(bucket_ml=500.0)))
    halves = [sum(mix.for_.piece == piece for mix in job.mixes) for piece in (1, 2)]
    assert max(halves) > 1
    [bucket] = [need for need in job.needs if need.id == "bucket"]
    assert (bucket.amount, bucket.size_ml) == (times("bucket", max(halves)), 500.0)


def test_syringes_by_their_sizes() -> None:
    """One for each part and size in the rubber; in the casts one for each of the skin and of the back-fill."""
    job = job_of(commission(cast=CastOrder(resin="polyester-casting", backfill="polyester-casting")))
    for group, kinds in (
        (NeedGroup.RUBBER, [RUBBER_KINDS]),
        (NeedGroup.CASTING, [{MixKind.SKIN}, {MixKind.BACK_FILL}]),
    ):
        wanted: dict[float, int] = {}
        for batch in kinds:
            drawn = {(p.kind, p.syringe_ml) for mix in job.mixes if mix.for_.kind in batch for p in mix.parts}
            for _, size in drawn:
                if size is not None:
                    wanted[size] = wanted.get(size, 0) + 1
        rows = [need for need in job.needs if need.id == "syringe" and need.for_ is group]
        assert wanted
        assert {need.size_ml: need.amount for need in rows} == {size: times("syringe", n) for size, n in wanted.items()}


def test_a_spare_cup_of_rubber_and_of_the_skin_is_bought() -> None:
    """The steps tell to mix a new cup when one gels: the largest of the coats, one of the skin (common practice, no
    source); the cups themselves stay as they are."""
    for kind, kinds, part, id_, group, count in (
        (MixKind.COAT, RUBBER_KINDS, PartKind.A, "addition-cure-a10-slow-a", NeedGroup.RUBBER, 1),
        (MixKind.SKIN, {MixKind.SKIN}, PartKind.POWDER, "bronze", NeedGroup.CASTING, 24),
    ):
        held = [(mix, p.mass_g) for mix in JOB.mixes for p in mix.parts if p.kind is part]
        wanted_g = count * sum(g for mix, g in held if mix.for_.kind in kinds) + spare_g(kind, part)
        need = needs()[id_, group]
        assert need.spare
        assert need.amount.likely == pytest.approx(wanted_g, abs=0.11)


def test_a_shop_without_a_scale_buys_by_volume() -> None:
    """Every part of every mix, as its cups are filled, one spare cup of the largest coat and of the skin."""
    job = job_of(commission(cast=CastOrder(backfill="none"), shop=ShopOrder(measure=Measure.VOLUME, marks_ml=1.0)))
    for kinds, part, count in ((RUBBER_KINDS, PartKind.A, 1), ({MixKind.SKIN}, PartKind.POWDER, 24)):
        cups = [mix for mix in job.mixes if mix.for_.kind in kinds]
        largest = max((mix for mix in cups if mix.for_.kind is not MixKind.FILL), key=lambda mix: mix.mass_g)
        ml = [sum(p.volume_ml for mix in some for p in mix.parts if p.kind is part) for some in (cups, [largest])]
        [need] = [need for need in job.needs if need.part is part and need.for_ is not NeedGroup.SHELL][:1]
        assert need.unit is NeedUnit.MILLILITER
        assert need.amount.likely == pytest.approx(count * ml[0] + ml[1], abs=0.16)
    mixed = [need for need in job.needs if need.part is not None]
    assert {need.unit for need in mixed} == {NeedUnit.MILLILITER}


def test_rolls_are_told_by_their_size() -> None:
    """Width and length of the sheet's roll, in the reader's units (25.4 mm an inch)."""
    sheet = LIBRARY.shell("plaster-bandage")
    assert sheet.roll_width_mm is not None
    assert sheet.roll_length_mm is not None
    need = needs()["plaster-bandage", NeedGroup.SHELL]
    assert need.roll_mm == (sheet.roll_width_mm.likely, sheet.roll_length_mm.likely)
    inches = re.findall(r"([\d.]+)(?: (\d+)/(\d+))? (in|ft)", need_name(need, UnitSystem.US))
    for (whole, over, under, unit), side_mm in zip(inches, need.roll_mm, strict=True):
        told_mm = (float(whole) + (int(over) / int(under) if over else 0.0)) * (25.4 if unit == "in" else 304.8)
        assert told_mm == pytest.approx(side_mm, rel=0.02)


def test_a_part_is_bought_under_its_word() -> None:
    """Epoxy in the trade's words: resin and hardener (common practice, no source)."""
    job = job_of(commission(cast=CastOrder(backfill="epoxy-slow")))
    told = {need_name(need, UnitSystem.METRIC) for need in job.needs if need.id in ("epoxy-slow-a", "epoxy-slow-b")}
    assert told == {"slow casting epoxy, part A resin", "slow casting epoxy, part B hardener"}


def test_whole_pieces_are_bought_whole() -> None:
    """A blade of which each use takes a fifth, half, all: none at the least, one."""
    assert amounts("knife", NeedGroup.RUBBER) == Range(0.0, 1.0, 1.0)
    assert amounts("steel-wool", NeedGroup.FINISHING) == Range(7.0, 12.0, 24.0)  # 0.3, 0.5, 1 of 24
    third = plain_row("x", Range(1.9, 2.0, 2.1), NeedUnit.EACH, NeedGroup.SHELL)
    assert third.amount == Range(1.0, 2.0, 3.0)
    dust = plain_row("x", Range(2.0, 2.0 + 1e-12, 2.0 + 1e-12), NeedUnit.PAIR, NeedGroup.SHELL)
    assert dust.amount == Range(2.0, 2.0, 2.0)
    weighed = plain_row("x", Range(1.24, 1.26, 1.31), NeedUnit.GRAM, NeedGroup.SHELL)
    assert weighed.amount == Range(1.2, 1.3, 1.3)


def test_coatings_by_their_area() -> None:
    """Grams a square meter, times the coats, times the area."""
    for sheet, group, area_m2 in (
        (LIBRARY.release("petroleum-jelly"), NeedGroup.RUBBER, 0.042),
        (LIBRARY.wax("paste-wax"), NeedGroup.SHELL, 0.08 + 0.0124),
        (LIBRARY.wax("dark-wax"), NeedGroup.FINISHING, 0.04 * 24),
    ):
        layer, coats = sheet.coverage_g_m2, sheet.coats
        by_hand = Range(*(getattr(layer, end) * getattr(coats, end) * area_m2 for end in ("low", "likely", "high")))
        near(amounts(sheet.id, group), by_hand, 0.0501)


def test_a_coating_of_two_layers() -> None:
    sheet = replace(
        LIBRARY.release("petroleum-jelly"),
        coverage_g_m2=replace(LIBRARY.release("petroleum-jelly").coverage_g_m2, range=Range(10.0, 20.0, 40.0)),
        coats=replace(LIBRARY.release("petroleum-jelly").coats, range=Range(1.0, 2.0, 3.0)),
    )
    assert coated(sheet, 0.5, NeedGroup.RUBBER).amount == Range(5.0, 20.0, 60.0)


def test_what_is_thinned_is_bought_as_two() -> None:
    """Of what is brushed on, half is mineral spirits: common practice, no source."""
    found = needs(commission(mold=MoldOrder(release="petroleum-jelly-thinned")))
    sheet = LIBRARY.release("petroleum-jelly-thinned")
    laid_g = sheet.coverage_g_m2.likely * sheet.coats.likely * 0.042
    jelly, thinner = found[sheet.id, NeedGroup.RUBBER], found["thinner-mineral-spirits", NeedGroup.RUBBER]
    assert jelly.amount.likely == pytest.approx(laid_g / 2, abs=0.0501)
    assert thinner.amount.likely == pytest.approx(laid_g / 2, abs=0.0501)
    assert need_name(jelly, UnitSystem.US) == "thinned petroleum jelly, before it is thinned"
    assert not [id_ for id_, _ in needs() if id_.startswith("thinner")]


def test_talc_for_peeling_and_a_tenth_of_it_for_each_cast() -> None:
    """0.08 m2 (1 + 24 / 10) at the sheet's grams a square meter: common practice, no source."""
    near(amounts("talc", NeedGroup.SHELL), times("talc", 0.08 * 3.4), 0.0501)


def test_clay_for_the_gap_and_for_the_wall() -> None:
    """A wall 62 x 2 x 1 cm, 124 ml by a hand that is a quarter off, of 1.4 to 1.9 g/ml, likely 1.65; a gap takes a
    small ball of it."""
    near(amounts("clay", NeedGroup.SHELL), Range(93 * 1.4, 124 * 1.65, 155 * 1.9), 0.06)
    gap = amounts("clay", NeedGroup.RUBBER)
    assert gap.low > 0
    assert gap.high <= 100.0


def test_bandage_in_rolls_one_in_five_spare() -> None:
    assert JOB.bandage is not None
    need = needs()["plaster-bandage", NeedGroup.SHELL]
    assert need.amount == Range(6.0, 6.0, 8.0)  # 14 strips of 4 plies, 11 plies a roll: 5.1; 6 x 1.2
    assert (need.form, need.unit) == (NeedForm.ROLLS, NeedUnit.EACH)
    near(amounts("dipping-water", NeedGroup.SHELL), Range.about(JOB.bandage.water_ml, 0.2), 0.06)


def test_rubber_is_bought_as_it_is_mixed() -> None:
    """The list's sum of A is that of all its cups; its ends are those of coats, flange and fill together; one spare."""
    cups = [mix for mix in JOB.mixes if mix.for_.kind in RUBBER_KINDS]
    a_g = sum(part.mass_g for mix in cups for part in mix.parts if part.kind is PartKind.A)
    every = [*(coat.mixed_g for coat in JOB.rubber.coats), JOB.rubber.flange.mixed_g, JOB.rubber.fill.mixed_g]
    low, likely, high = (sum(getattr(one, end) for one in every) for end in ("low", "likely", "high"))
    found = amounts("addition-cure-a10-slow-a", NeedGroup.RUBBER)
    more_g = spare_g(MixKind.COAT, PartKind.A)
    near(found, Range(a_g * low / likely + more_g, a_g + more_g, a_g * high / likely + more_g), 0.1001)


def test_casting_is_bought_for_the_edition() -> None:
    """24 casts, 8 % of waste give or take half (2 % in the cup at the least: 1 to 4 %), a skin a fifth off; one spare
    cup of the skin."""
    one_g = sum(p.mass_g for mix in JOB.mixes if mix.for_ == SKIN for p in mix.parts if p.kind is PartKind.POWDER)
    low, high = 1.04 * 0.8 / 1.08, 1.12 * 1.2 / 1.08
    more_g = spare_g(MixKind.SKIN, PartKind.POWDER)
    near(amounts("bronze", NeedGroup.CASTING), Range(24 * low, 24, 24 * high) * one_g + Range.exactly(more_g), 0.1001)
    cast = [mix for mix in JOB.mixes if mix.for_ in (SKIN, BACK_FILL)]  # of one resin
    back_g = sum(p.mass_g for mix in cast for p in mix.parts if p.kind is PartKind.B)
    near(
        amounts("urethane-standard-b", NeedGroup.CASTING),
        Range(24 * low, 24, 24 * high) * back_g + Range.exactly(spare_g(MixKind.SKIN, PartKind.B)),
        0.1501,  # three rows, each to 0.1 g
    )
    near(amounts("desiccant", NeedGroup.CASTING), times("desiccant", 24 * one_g / 1000), 0.0501)


def test_a_careful_shop_still_leaves_some_in_the_cup() -> None:
    """Without waste 2 % stay (1 to 4 %): 1.01 x 0.8 / 1.02 and 1.04 x 1.2 / 1.02."""
    order = commission(shop=ShopOrder(waste=0.0))
    more_g = spare_g(MixKind.SKIN, PartKind.POWDER, job_of(order))
    low, likely, high = (getattr(amounts("bronze", NeedGroup.CASTING, order), e) - more_g for e in ENDS)
    assert low / likely == pytest.approx(1.01 * 0.8 / 1.02, rel=1e-4)
    assert high / likely == pytest.approx(1.04 * 1.2 / 1.02, rel=1e-4)


def test_what_is_not_cast_is_not_bought() -> None:
    plain = {need.id for need in job_of(commission(cast=CastOrder(powder="none", backfill="none"))).needs}
    assert not plain & {"bronze", "desiccant", "steel-wool", "isopropanol", "tint-black"}
    assert {"sandpaper", "felt", "base-screw", "dark-wax"} <= plain


def test_stone_powder_is_not_burnished() -> None:
    named = {need.id for need in job_of(commission(cast=CastOrder(powder="marble"))).needs}
    assert "marble" in named
    assert "desiccant" in named
    assert not named & {"steel-wool", "isopropanol"}


def test_holes_want_dividers() -> None:
    assert amounts(
        "divider", NeedGroup.RUBBER, commission(), volumes(piece__holes=holes(12.0, 30.0, 9.0, 1.8))
    ) == Range.exactly(3.0)
    assert ("divider", NeedGroup.RUBBER) not in needs(commission(), volumes(piece__holes=()))


def test_a_single_coat_needs_a_brush() -> None:
    one = commission(mold=MoldOrder(coats=(CoatOrder("only", 4.0),)))
    assert amounts("brush", NeedGroup.RUBBER, one, volumes(glove__coat_ml=(166.6,))) == times("brush", 1)


def test_a_patch_test_where_one_is_due() -> None:
    assert amounts("patch-cup", NeedGroup.RUBBER, commission("sulfur clay")) == times("patch-cup", 1)
    assert ("patch-cup", NeedGroup.RUBBER) not in needs()


def test_the_patch_tests_rubber_is_bought_too() -> None:
    """20 g, common practice, by weight as 100 : 100."""
    for part in ("a", "b"):
        id_ = f"addition-cure-a10-slow-{part}"
        with_test = amounts(id_, NeedGroup.RUBBER, commission("sulfur clay")).likely
        assert with_test - amounts(id_, NeedGroup.RUBBER).likely == pytest.approx(10.0, abs=0.2)


def test_a_printed_shell_is_filament() -> None:
    """640 ml at the sheet's density."""
    need = needs(commission(mold=MoldOrder(shell="printed")))["printed", NeedGroup.SHELL]
    near(need.amount, LIBRARY.shell("printed").density_g_ml.range * 640.0, 0.0501)
    assert need.form is NeedForm.FILAMENT


def test_a_laid_shell_by_its_ratios() -> None:
    """640 ml and 8 % of waste at the dry shell's density: a gram of plaster binds 27.0225 / 145.149 g of
    water (stoichiometry) and holds f of fiber; it is mixed with w of water, of which the rest dries off."""
    sheet = LIBRARY.shell("fiber-gypsum")
    assert sheet.water_g_g is not None
    assert sheet.fiber_pct is not None
    water, fiber = sheet.water_g_g.likely, sheet.fiber_pct.likely / 100
    found = needs(commission(mold=MoldOrder(shell="fiber-gypsum")))
    assert sheet.density_g_ml is not None
    gypsum = sheet.density_g_ml.range * (640 * 1.08 / (1 + 27.0225 / 145.149 + fiber))
    for id_, wanted in ((sheet.id, gypsum), ("gypsum-water", gypsum * water), ("gypsum-fiber", gypsum * fiber)):
        near(found[id_, NeedGroup.SHELL].amount, wanted, 22.0)  # whole grams of water, 3.3 of gypsum, in each bucket
    near(found["clay", NeedGroup.SHELL].amount, Range(93 * 1.4, 124 * 1.65, 155 * 1.9), 0.06)
    assert found[sheet.id, NeedGroup.SHELL].form is NeedForm.DRY


def test_rows_of_one_thing_are_added() -> None:
    clay = LIBRARY.consumable("clay")
    one = row(clay, Range(1.0, 2.0, 3.0), NeedUnit.GRAM, NeedGroup.SHELL)
    other = row(clay, Range(0.5, 0.5, 0.5), NeedUnit.GRAM, NeedGroup.RUBBER)
    assert [need.amount for need in merged([one, other, one])] == [Range(2.0, 4.0, 6.0), Range(0.5, 0.5, 0.5)]


def test_one_id_in_two_kinds_is_two_things() -> None:
    """A sealer and a release may be called alike, in id and in name."""
    text = "\n".join(
        f'[{kind}.alike]\nlike = "{like}"\nname = "alike"\ncoverage_g_m2 = {rate}\ncoats = 1'
        for kind, like, rate in (("sealer", "shellac", 10), ("release", "petroleum-jelly", 30))
    )
    order = commission("wood", mold=MoldOrder(sealer="alike", release="alike"))
    rows = [need for need in job_of(order, library({"own.toml": text}), VOLUMES).needs if need.id == "alike"]
    assert [need.kind for need in rows] == ["sealer", "release"]
    for need, wanted_g in zip(rows, (0.42, 1.26), strict=True):  # 0.042 m2
        assert need.amount.likely == pytest.approx(wanted_g, abs=0.0501)


def test_traces_may_be_three_times_as_much() -> None:
    """A trace on a stick, a few drops: a fifth to three times (common practice, no source)."""
    tint_g = 24 * sum(p.mass_g for mix in JOB.mixes if mix.for_ == SKIN for p in mix.parts if p.kind is PartKind.TINT)
    need = needs()["tint-brown", NeedGroup.CASTING]
    near(need.amount, Range(0.2 * tint_g, tint_g, 3 * tint_g), 0.0501)
    assert need.color == "brown"
    assert need.part is PartKind.TINT
