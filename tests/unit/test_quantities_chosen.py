"""Which sheets a job takes, what it assumes, and what it refuses; the cast's part of the plan by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest
from made_up_job import VOLUMES, commission, job_of, volumes

from moldwright.commission.orders import CastOrder, MoldOrder, ShopOrder
from moldwright.errors import InputRefused, NoSafePlan
from moldwright.job.planning import shell_settings
from moldwright.materials import library
from moldwright.materials.compatibility import Trial
from moldwright.plan.mixes import SKIN, PartKind
from moldwright.quantities.cast import needed_g, skin_density
from moldwright.quantities.chosen import Chosen, chosen, named
from moldwright.quantities.laid_shell import bandage_plan
from moldwright.quantities.pot_lives import pot_lives, slower_rubbers
from moldwright.ranges import Range
from moldwright.ways import Change

LIBRARY = library()
NO_WASTE = ShopOrder(waste=0.0)


def taken(material: str = "plastic", mold: MoldOrder | None = None, cast: CastOrder | None = None) -> Chosen:
    return chosen(commission(material, mold=mold, cast=cast), LIBRARY)


def test_the_usual_release_and_sealer() -> None:
    """Grease under all rubber but latex, which swells in it; a film without alcohol under urethane rubber; a sealer
    only on what is porous: common practice, no source."""
    silicone, latex, urethane = (MoldOrder(rubber=r) for r in ("addition-cure-a10-slow", "latex", "urethane-a30"))
    releases = [taken(mold=mold).release for mold in (silicone, latex, urethane)]
    assert [sheet.id for sheet in releases if sheet] == ["petroleum-jelly", "soap-release", "petroleum-jelly"]
    sealers = [taken("plaster", mold).sealer for mold in (silicone, latex, urethane)]
    assert [sheet.id for sheet in sealers if sheet] == ["shellac", "shellac", "acrylic"]
    assert taken("plastic").sealer is None


def test_what_the_maker_names_or_leaves_out() -> None:
    assert [named(word) for word in ("bronze", " None ", "-", "no", "", "  ")] == [True] + [False] * 5
    without = taken("plaster", MoldOrder(release="none", sealer="no"))
    assert (without.release, without.sealer) == (None, None)
    own = taken("plastic", MoldOrder(release="soap-release", sealer="acrylic"))
    assert own.release is not None
    assert own.sealer is not None
    assert (own.release.id, own.sealer.id) == ("soap-release", "acrylic")
    bare = taken(cast=CastOrder(powder="none", backfill="-"))
    assert (bare.powder, bare.backfill) == (None, None)


def test_a_clear_cast_stays_clear() -> None:
    """No drops in a clear resin, unless powder makes it opaque anyway."""
    clear = LIBRARY.resin("urethane-clear").id
    for powder, tinted in (("none", False), ("bronze", True)):
        job = job_of(commission(cast=CastOrder(resin=clear, powder=powder)))
        skin = next(mix for mix in job.mixes if mix.for_ == SKIN)
        assert (PartKind.TINT in {part.kind for part in skin.parts}) == tinted
    plain = job_of(commission(cast=CastOrder(powder="none")))
    assert PartKind.TINT in {part.kind for part in plain.mixes[-1].parts}


def test_slower_rubbers_of_the_same_kind_nearest_first() -> None:
    fast = LIBRARY.rubber("addition-cure-a10-fast")
    found = [LIBRARY.rubber(id_) for id_ in slower_rubbers(LIBRARY, fast, 23.0, 1200.0)]
    assert 1 <= len(found) <= 3
    off = [abs(sheet.shore_a.likely - fast.shore_a.likely) for sheet in found]
    assert off == sorted(off)
    assert all(sheet.chemistry is fast.chemistry and sheet.pot_life_s.low > 1200.0 for sheet in found)
    every = slower_rubbers(LIBRARY, fast, 23.0, 1.0)
    assert len(every) == 3
    assert every[0] == fast.id
    assert slower_rubbers(LIBRARY, fast, 23.0, 1e9) == ()


def test_each_mix_must_outlast_its_stirring() -> None:
    """The rubber's 3 min, the resins' own: where one does not, its name stands in the refusal."""
    sheets = taken()
    assert sheets.backfill is not None
    assert pot_lives(sheets, ShopOrder(), LIBRARY).backfill is not None
    assert pot_lives(replace(sheets, backfill=None), ShopOrder(), LIBRARY).backfill is None
    slow = {field: replace(getattr(sheets, field), mix_s=replace(sheets.resin.mix_s, range=Range.exactly(1e4)))
            for field in ("resin", "backfill")}  # fmt: skip
    for field, sheet in slow.items():
        with pytest.raises(NoSafePlan, match=sheet.name) as refused:
            pot_lives(replace(sheets, **{field: sheet}), ShopOrder(), LIBRARY)
        share = 1 / 3 if field == "resin" else 1.0  # a skin is swirled after it is poured
        assert refused.value.limit == 10_000 + 60 / share
    with pytest.raises(NoSafePlan) as refused:
        pot_lives(sheets, ShopOrder(mix_min=100.0), LIBRARY)
    assert refused.value.limit == 6060  # and the hand its minute


def test_mixed_for_what_ends_in_the_mold() -> None:
    """V rho (1 + waste), 2 % in the cup where the shop wastes less."""
    assert needed_g(50.0, 2.0, 0.1) == pytest.approx(110.0)
    assert needed_g(50.0, 2.0, 0.01) == pytest.approx(102.0)


def test_density_of_a_skin_spreads_with_its_parts() -> None:
    """Weighed parts fix the share by weight: low densities with low ones, 100 g in (100 - w) / rho + w / rho_powder."""
    resin = LIBRARY.resin("urethane-fast")
    for powder in (LIBRARY.powder("bronze"), LIBRARY.powder("marble")):
        mix = job_of(commission(cast=CastOrder(powder=powder.id))).cast.skin_mix
        w, grain, found = mix.filled.loading_wt_pct, powder.true_density_g_ml, skin_density(resin, powder, mix)
        alone = skin_density(resin, None, mix)
        for end in ("low", "likely", "high"):
            by_hand = 100 / ((100 - w) / getattr(alone, end) + w / getattr(grain, end))
            assert getattr(found, end) == pytest.approx(by_hand)
    assert alone.likely == pytest.approx(204.8 / (100 / 1.05 + 104.8 / 1.10), rel=1e-4)


def test_the_casts_part_of_the_plan() -> None:
    """150 ml of skin and 470 ml behind it fill 620 ml; hollow, none behind; all skin where nothing is left inside."""
    cast = job_of(commission()).cast.cast
    assert (cast.volume_ml, cast.skin.volume_ml, cast.backfill_ml) == (620.0, 150.0, 470.0)
    assert cast.loading_vol_pct == pytest.approx(100 * (1.5 / 8.78) / (1 + 1.5 / 8.78), abs=6e-5)  # equal loose volumes
    assert cast.skin.thickness_mm == CastOrder().skin_mm
    hollow = job_of(commission(cast=CastOrder(backfill="none"))).cast
    assert hollow.cast.backfill_ml == 0.0
    assert {mix.for_ for mix in hollow.mixes} == {SKIN}
    solid = job_of(commission(), LIBRARY, volumes(skin__whole_ml=619.0, skin__core_kept_ml=1.0)).cast.cast
    assert solid.backfill_ml == 0.0
    assert solid.mass_g.likely == pytest.approx(560 * (1.05 + 1.10 + 3.0) / (2 + 3.0 / 8.78), rel=1e-3)


def test_a_hollow_cast_weighs_its_skin() -> None:
    hollow = job_of(commission(cast=CastOrder(backfill="none"))).cast.cast
    assert hollow.mass_g.likely == pytest.approx(136 * (1.05 + 1.10 + 3.0) / (2 + 3.0 / 8.78), rel=1e-3)


def test_a_bandage_by_the_larger_of_height_and_width() -> None:
    """Above 250 mm either way a third layer, where the sheet does not tell them."""
    sheet = replace(LIBRARY.shell("plaster-bandage"), layers=None)
    for changes, layers in (({}, 2), ({"piece__height_mm": 260.0}, 3), ({"piece__widest_mm": 260.0}, 3)):
        laid = bandage_plan(sheet, volumes(**changes), NO_WASTE)
        assert laid is not None
        assert laid.layers == layers
    with pytest.raises(InputRefused, match="sheet-incomplete"):
        bandage_plan(replace(sheet, roll_width_mm=None), VOLUMES, NO_WASTE)
    assert bandage_plan(LIBRARY.shell("printed"), VOLUMES, NO_WASTE) is None


def test_what_nobody_gave_is_told() -> None:
    """A key that was given is no assumption, nor is what is left empty; numbers carry their unit, words none."""
    rows = {row.key: row for row in job_of(commission()).assumed}
    assert rows["mold.thickness"].unit == "mm"
    assert rows["mold.rubber"].unit == ""
    assert rows["shop.scale"].value == 0.1
    assert not {"original.height", "edition.count", "mold.release ", "shop.sheets"} & set(rows)
    assert rows["mold.release"].value == "petroleum jelly"
    assert rows["mold.sealer"].value == "none"
    for key in ("resin.urethane-standard", "rubber.addition-cure-a10-slow"):
        assert rows[f"{key}.pot_life"].unit == "s"
    assert rows["powder.bronze.true_density_g_ml"].value == LIBRARY.powder("bronze").true_density_g_ml.range
    plain = {row.key for row in job_of(commission(cast=CastOrder(powder="none", backfill="none"))).assumed}
    assert not {"powder.bronze.true_density_g_ml"} & plain
    latex = {row.key for row in job_of(commission(mold=MoldOrder(rubber="latex"))).assumed}
    assert "rubber.latex.density_a_g_ml" in latex
    assert "rubber.latex.density_b_g_ml" not in latex
    assert len(rows) == len(job_of(commission()).assumed)


def test_the_shell_by_its_volume_or_by_its_bandage() -> None:
    """640 ml at the sheet's density; a bandage by what is laid: its lifts, and the weight it dries to."""
    job, printed = job_of(commission()), job_of(commission(mold=MoldOrder(shell="printed")))
    density = LIBRARY.shell("printed").density_g_ml
    assert density is not None
    assert printed.shell_g == density.range * 640.0
    assert job.bandage is not None
    assert job.bandage.dry_g / 1.08 < job.shell_g.likely < job.bandage.dry_g * 1.1862 / 1.08
    assert job.mixes_for(SKIN) == tuple(mix for mix in job.mixes if mix.for_ == SKIN)
    assert Trial.ORIGINAL not in job.basis.trials
    assert Trial.ORIGINAL in job_of(commission("sulfur clay")).basis.trials


def test_the_wall_of_a_print_is_told_by_its_order_else_by_its_sheet() -> None:
    """One figure: what the solids are built to, and what the sheets tell, both come from it."""
    told = taken(mold=MoldOrder(shell="printed", printed_wall_mm=5.5)).shell
    assert told.thickness_mm.range == Range.exactly(5.5)
    assert shell_settings(told, MoldOrder()).wall_mm == 5.5
    assert taken(mold=MoldOrder(shell="printed")).shell == LIBRARY.shell("printed")


def test_the_wall_of_a_print_says_nothing_of_a_shell_laid_by_hand() -> None:
    for by_hand in ("plaster bandage", "fiber-gypsum"):
        with pytest.raises(InputRefused) as refused:
            taken(mold=MoldOrder(shell=by_hand, printed_wall_mm=5.0))
        assert (refused.value.code, refused.value.limit) == ("wall-of-laid-shell", "a printed shell")
        assert refused.value.way == Change("mold.printed-wall")
