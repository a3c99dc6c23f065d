"""Which pair is tried first and when, what is released before every cast, and for what an original is sealed.

A patch test is read at the demold time, is done before the original is mounted, on a hidden spot, with the pair in
doubt; resin and rubber of one family want a release before every cast, polyester too: common practice, no source.
"""

from __future__ import annotations

import re

import pytest
from made_up_job import commission, job_of
from steps_context import context
from told import Told, told

from moldwright.commission.orders import CastOrder, MoldOrder
from moldwright.materials import library
from moldwright.materials.compatibility import Finding, Trial, judge
from moldwright.materials.rules import Slot, Verdict, release_each_cast
from moldwright.materials.shipped import shipped
from moldwright.plan.cautions import Severity
from moldwright.plan.needs import NeedGroup
from moldwright.plan.steps import Per
from moldwright.quantities.quantities import Quantities
from moldwright.steps.waits import COMMON_S, Wait, wait_s

LIBRARY = library()
QUICK = library({"own.toml": '[resin.epoxy-slow]\nfit = ["skin"]\npot_life = "10 to 14 min"'})
"""With an epoxy that gels while a skin of it is turned."""
TRIALS = {"patch-test", "resin-test", "powder-test", "shell-test"}
URETHANE, LATEX = MoldOrder(rubber="urethane-a30"), MoldOrder(rubber="latex")
BOND = [
    ("urethane-a30", "urethane-standard"),
    ("urethane-a30", "urethane-clear"),
    ("urethane-a30", "epoxy-slow"),
    ("urethane-a30", "polyester"),
    ("urethane-a30", "modified-gypsum"),
    ("addition-cure-a10-slow", "polyester"),
    ("condensation-cure-a25", "polyester"),
    ("latex", "urethane-standard"),
    ("latex", "epoxy-slow"),
]
LET_GO = [
    ("addition-cure-a20-fast", "urethane-standard"),
    ("addition-cure-a10-slow", "epoxy-slow"),
    ("addition-cure-a10-slow", "modified-gypsum"),
    ("condensation-cure-a25", "epoxy-slow"),
    ("latex", "modified-gypsum"),
]


def job(rubber: str, resin: str, release: str = "") -> Quantities:
    cast = CastOrder(resin=resin, powder="none", backfill="none", release=release)
    return job_of(commission(mold=MoldOrder(rubber=rubber), cast=cast), QUICK)


def ids(done: Told) -> list[str]:
    return [step.id for step in done.steps]


@pytest.mark.parametrize(("rubber", "resin"), BOND)
def test_where_resin_and_rubber_bond_the_mold_is_released_before_every_cast(rubber: str, resin: str) -> None:
    made = job(rubber, resin)
    done, release = told(made), made.basis.chosen.cast_release
    assert release is not None
    step = done.step("release-mold")
    assert step.per is Per.CAST
    assert ids(done).index("leak-check") < ids(done).index("release-mold") < ids(done).index("skin")
    assert any(release.name in line for line in step.do)
    assert any("release in the mold is on and dry" in line for line in done.step("skin").before)
    assert (step.wait_min is None) == (release.dry_s is not None and release.dry_s.high == 0)
    stops = [c for c in done.cautions if c.step == "release-mold" and c.severity is Severity.STOP]
    assert any("bonds to the glove" in c.text for c in stops)


@pytest.mark.parametrize(("rubber", "resin"), LET_GO)
def test_where_they_let_go_nothing_is_released(rubber: str, resin: str) -> None:
    made = job(rubber, resin)
    assert made.basis.chosen.cast_release is None
    assert "release-mold" not in ids(told(made))


def test_the_release_of_every_cast_is_on_the_list() -> None:
    """24 casts on 0.042 m2, the sheet's grams a square meter times its coats."""
    made = job("urethane-a30", "urethane-standard")
    need = next(n for n in made.needs if n.id == "wax-release" and n.for_ is NeedGroup.CASTING)
    sheet = LIBRARY.release("wax-release")
    by_hand = 24 * 0.042 * sheet.coverage_g_m2.likely * sheet.coats.likely
    assert need.amount.likely == pytest.approx(by_hand, abs=0.06)


def test_the_makers_own_release_goes_in_and_none_is_a_stop_of_this_job() -> None:
    own = job("urethane-a30", "urethane-standard", "silicone-release")
    assert own.basis.chosen.cast_release == LIBRARY.release("silicone-release")
    assert "silicone spray release" in told(own).step("release-mold").needs[0].casefold()
    assert any(f.rule == "oil-under-finish" for f in own.basis.findings)
    assert "release-mold" in ids(told(job("addition-cure-a10-slow", "urethane-standard", "wax-release")))
    bare = job("urethane-a30", "urethane-standard", "none")
    assert "release-mold" not in ids(told(bare))
    stop = [f for f in bare.basis.findings if f.slots == (Slot.RUBBER, Slot.RESIN)]
    assert [f.verdict for f in stop] == [Verdict.STOP]


def test_the_release_of_the_original_says_nothing_of_the_mold() -> None:
    """What lies between original and rubber is not in the mold when the resin comes."""
    for release in ("", "wax-release"):
        found = judge("plastic", "", release, "urethane-a30", "urethane-fast", "", "printed", LIBRARY)
        assert Verdict.STOP in {f.verdict for f in found if f.slots == (Slot.RUBBER, Slot.RESIN)}


def test_one_release_for_a_pair_whatever_the_rule() -> None:
    for rubber in LIBRARY.all("rubber"):
        for resin in LIBRARY.all("resin"):
            usual = release_each_cast(LIBRARY.rubber(rubber.id), LIBRARY.resin(resin.id))
            bare = judge("plastic", "", "", rubber.id, resin.id, "", "printed", LIBRARY)
            pair = [f for f in bare if f.slots == (Slot.RUBBER, Slot.RESIN)]
            if usual:
                assert LIBRARY.release(usual)
                assert any(f.verdict is not Verdict.CLEAR for f in pair), (rubber.id, resin.id)


IN_DOUBT = [
    (Trial.ORIGINAL, "patch-test", commission("sulfur clay", mold=MoldOrder(sealer="none"))),
    (Trial.RESIN, "resin-test", commission(cast=CastOrder(resin="polyester", powder="marble", backfill="none"))),
    (Trial.RESIN, "resin-test", commission(mold=MoldOrder(rubber="condensation-cure-a25"))),
    (Trial.POWDER, "powder-test", commission(cast=CastOrder(resin="polyester", powder="bronze", backfill="none"))),
]


@pytest.mark.parametrize(("trial", "step", "order"), IN_DOUBT, ids=[step for _, step, _ in IN_DOUBT])
def test_only_the_pair_that_is_in_doubt_is_tried(trial: Trial, step: str, order: object) -> None:
    made = job_of(order)  # type: ignore[arg-type]
    assert trial in made.basis.trials
    steps = {Trial.ORIGINAL: "patch-test", Trial.RESIN: "resin-test", Trial.POWDER: "powder-test",
             Trial.SHELL: "shell-test"}  # fmt: skip
    done = told(made)
    assert TRIALS & set(ids(done)) == {steps[each] for each in made.basis.trials}
    doubted = [c for c in done.cautions if c.step == step and "." in c.rule and not c.rule.startswith("hazards")]
    assert doubted


def test_no_trial_where_nothing_is_in_doubt() -> None:
    assert not TRIALS & set(ids(told(job_of(commission("plastic")))))


def test_a_shell_that_no_rule_knows_is_tried_on_trimmings() -> None:
    own = library({"own.toml": '[shell.foam]\nlike = "printed"\nname = "foam shell"\ntags = []'})
    found = judge("plastic", "", "", "addition-cure-a10-slow", "urethane-fast", "", "foam", own)
    assert {f.trial for f in found if f.slots == (Slot.RUBBER, Slot.SHELL)} <= {None, Trial.SHELL}
    doubt = Finding("no-rule", Verdict.DOUBT, (Slot.RUBBER, Slot.SHELL), ("rubber", "shell"), "made up", True)
    done = told(context(findings=(doubt,)))
    assert TRIALS & set(ids(done)) == {"shell-test"}
    assert ids(done).index("trim-flange") < ids(done).index("shell-test") < ids(done).index("wax-rubber")


def test_the_patch_test_stands_before_its_surface_is_cleaned_away_or_mounted() -> None:
    order = commission("sulfur clay", mold=MoldOrder(sealer="shellac", release="wax-release"))
    made = job_of(order)
    done = told(made)
    place = ids(done)
    assert place.index("patch-test") < min(place.index(id_) for id_ in ("clean", "seal", "mount", "gaps", "release"))
    said = " ".join(done.step("patch-test").do)
    assert said.index("shellac") < said.index("wax-in-solvent release") < said.index("Lay a coin")
    assert not re.search(r"board|plinth|on the clay", said)


@pytest.mark.parametrize("rubber", ["addition-cure-a10-slow", "condensation-cure-a25", "urethane-a30"])
def test_the_patch_test_is_read_at_the_demold_time(rubber: str) -> None:
    """The test place dries as the whole would; from then on it waits for demold, not for the full cure."""
    made = context(mold=MoldOrder(rubber=rubber, sealer="shellac", release="wax-release"))
    wait = told(made).step("patch-test").wait_min
    sealer, release = LIBRARY.sealer("shellac").dry_s, LIBRARY.release("wax-release").dry_s
    assert wait is not None
    assert sealer is not None
    assert release is not None
    demold = wait_s(Wait.RUBBER_DEMOLD, made)
    dried = sealer.likely + release.likely
    assert wait.likely == pytest.approx((demold.likely + dried) / 60.0, abs=0.1)
    assert not any(s.startswith("rubber.full_cure") for s in told(made).step("patch-test").do)
    bare = context(mold=MoldOrder(rubber=rubber, sealer="none", release="none"))
    assert told(bare).step("patch-test").wait_min is not None
    assert told(bare).step("patch-test").wait_min.likely == pytest.approx(demold.likely / 60.0, abs=0.1)  # type: ignore[union-attr]
    assert COMMON_S[Wait.CAST_RELEASE_DRY].likely > 0


def test_resin_is_tried_on_the_gloves_own_trimmings_after_its_full_cure() -> None:
    made = job("urethane-a30", "urethane-standard")
    done, place = told(made), ids(told(made))
    assert place.index("trim-flange") < place.index("rubber-full-cure") < place.index("resin-test")
    assert place.index("resin-test") < place.index("release-mold")
    assert any("Keep the cleanest strip" in line for line in done.step("trim-flange").do)
    assert "wax-in-solvent release" in " ".join(done.step("resin-test").do)
    assert "original" not in " ".join(done.step("resin-test").do)
    assert any(c.rule == "isocyanate" for c in done.cautions if c.step == "resin-test")


def test_what_a_trial_takes_is_on_the_list() -> None:
    """20 g of the skin's mix, common practice, in its ratio; no rubber for a test that is not made."""
    doubt = job_of(commission(mold=MoldOrder(rubber="condensation-cure-a25")))
    plain = job_of(commission(mold=MoldOrder(rubber="addition-cure-a10-slow")))
    assert Trial.RESIN in doubt.basis.trials
    assert not plain.basis.trials

    def poured(of: Quantities) -> float:
        rows = [n for n in of.needs if n.for_ is NeedGroup.CASTING and n.part is not None and n.unit == "g"]
        return sum(n.amount.likely for n in rows if not n.color)

    assert poured(doubt) - poured(plain) == pytest.approx(20.0, abs=0.6)
    assert any(n.id == "patch-cup" and n.for_ is NeedGroup.CASTING for n in doubt.needs)
    assert not any(n.id == "patch-cup" and n.for_ is NeedGroup.RUBBER for n in doubt.needs)


BARRIERS = ["sulfur clay", "oil clay", "photopolymer print", "epoxy putty", "polyester", "lead", "polymer clay", "wood"]


@pytest.mark.parametrize("material", BARRIERS)
def test_no_step_tells_to_skip_the_sealer_that_a_remedy_asks_for(material: str) -> None:
    """Oil repels a drop of water, so the drop says nothing of a sealer that holds back sulfur, amine or monomer."""
    done = told(job_of(commission(material, mold=MoldOrder(sealer="shellac"))))
    said = " ".join(done.step("seal").do)
    assert "leave the step out" not in said
    assert "keeps rubber and original apart" in said
    assert any("gap in this barrier" in c.text.casefold() for c in done.cautions if c.step == "seal")
    bare = " ".join(told(job_of(commission(material, mold=MoldOrder(sealer="none")))).step("clean").do)
    assert "no sealer between them" in bare
    assert "drop of water" not in bare


def test_pores_are_still_tried_with_a_drop() -> None:
    done = told(job_of(commission("plaster", mold=MoldOrder(sealer="shellac"))))
    assert "drop of water" in " ".join(done.step("seal").do)


def test_every_rule_whose_remedy_asks_for_a_sealer_says_for_what() -> None:
    """Pores alone, or a barrier: only the first may be left out where the drop stands."""
    for row in shipped("compatibility")["rule"]:
        if row["pair"] == ["original", "rubber"] and re.search(r"\bseal(?!ed)|lacquer", row["remedy"], re.IGNORECASE):
            pores = row["when"].get("original") == ["porous"]
            assert row.get("barrier", False) is not pores, row["id"]
