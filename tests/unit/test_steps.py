"""The steps of the work: complete, in order, with this job's quantities, cautions where they belong."""

from __future__ import annotations

import re

import pytest
from steps_context import context, judged, measures, step_of, work_steps
from told import ToldStep, told

from moldwright.commission.orders import CastOrder, CoatOrder, MoldOrder, ShopOrder, UnitSystem
from moldwright.geometry.seam_kind import Seam
from moldwright.materials import library
from moldwright.materials.rules import Verdict
from moldwright.materials.words import Fit
from moldwright.plan.cautions import Severity
from moldwright.plan.mixes import BACK_FILL, SKIN, MixFor, MixKind, PartKind
from moldwright.plan.steps import Per
from moldwright.quantities.quantities import Quantities
from moldwright.steps.draft import drafts

STABLE = (
    "receive clean seal mount gaps release patch-test handles coat-1-mix coat-1 coat-1-look fill "
    "cure-rubber trim-flange mark-seam wax-rubber shell-2 shell-wax-edge shell-1 shell-dry open-shell talc peel "
    "weigh-glove rubber-full-cure reseat close-shell stand leak-check powder-dry skin back-fill demold flash "
    "trim-plinth solvent-wipe burnish dark-wax base-felt weigh-cast approve-first number pack rest store-mold"
)
ALL = library()
RUBBERS, SHELLS = [s.id for s in ALL.all("rubber")], [s.id for s in ALL.all("shell")]
DROPPED = 'drop = ["powder-dry"]'
RESINS, POWDERS = [s.id for s in ALL.all("resin")], [s.id for s in ALL.all("powder")]
SKINS = [id_ for id_ in RESINS if Fit.SKIN in ALL.resin(id_).fit]


def ids_of(job: Quantities) -> list[str]:
    return [step.id for step in work_steps(job)]


def texts(step: ToldStep) -> tuple[str, ...]:
    return step.texts


def check(job: Quantities) -> None:
    """What holds for every job: ids once, no negative minutes, every cup once, no placeholder left."""
    steps = work_steps(job)
    ids = [step.id for step in steps]
    assert len(ids) == len(set(ids))
    assert all(re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", id_) for id_ in ids)
    assert all(step.labor_min >= 0 for step in steps)
    assert all(step.do and step.before and step.cautions for step in steps)
    assert [mix for step in steps for mix in step.mixes] == [mix.id for mix in job.mixes]
    assert not [text for step in steps for text in texts(step) if "{" in text or "}" in text]
    assert {step.per for step in steps} | {Per.BATCH} == set(Per)


def test_the_stable_ids_are_all_there() -> None:
    job = context(mold=MoldOrder(sealer="acrylic"))
    assert set(STABLE.split()) <= set(ids_of(job))
    assert set(ids_of(context())) == set(ids_of(job)) - {"seal"}  # its plastic takes no sealer unless one is named


def test_known_ids_hold_those_that_this_job_leaves_out() -> None:
    job = context(findings=(), volumes=measures(piece__holes=(), cavity__plinth_ml=0.0, cavity__plinth_height_mm=0.0))
    absent = {"patch-test", "handles", "plinth", "trim-plinth", "shell-print"}
    assert absent <= {draft.id for draft in drafts(job)}
    assert not absent & set(ids_of(job))


@pytest.mark.parametrize("rubber", RUBBERS)
@pytest.mark.parametrize("shell", SHELLS)
def test_every_rubber_and_shell(rubber: str, shell: str) -> None:
    check(context(mold=MoldOrder(rubber=rubber, shell=shell)))


@pytest.mark.parametrize("resin", RESINS)
@pytest.mark.parametrize("powder", [*POWDERS, "none"])
def test_every_resin_and_powder(resin: str, powder: str) -> None:
    skin = resin if resin in SKINS else "urethane-standard"
    check(context(cast=CastOrder(resin=skin, powder=powder, backfill=resin)))


def test_no_back_fill() -> None:
    job = context(cast=CastOrder(backfill="none"))
    check(job)
    assert "back-fill" not in ids_of(job)


def test_each_cup_stands_on_the_step_that_mixes_it() -> None:
    job = context()
    coat = MixFor(MixKind.COAT, job.rubber.coats[0].id)
    for for_, id_ in ((coat, "coat-1-mix"), (SKIN, "skin"), (BACK_FILL, "back-fill")):
        assert step_of(job, id_).mixes == tuple(mix.id for mix in job.mixes_for(for_)) != ()


def test_fill_follows_the_look_at_its_coat_which_is_tacky_by_then() -> None:
    """A coat is mended while wet; rubber pressed into a wet coat plows it off: common practice, no source."""
    ids = ids_of(context())
    assert ids.index("coat-2-look") < ids.index("fill") < ids.index("coat-3-mix")
    assert ids.index("coat-3-look") < ids.index("fill-after-coat-3") < ids.index("hold-glove")


def test_no_fill_no_fill_step() -> None:
    job = context(volumes=measures(glove__fill_ml=0.0, glove__spots=(), glove__crevice_ml=0.0))
    check(job)
    assert "fill" not in ids_of(job)


def test_coats_of_the_makers_own_and_their_ids() -> None:
    coats = (CoatOrder("Face, 1st", 1.0), CoatOrder("body", 3.0))
    job = context(mold=MoldOrder(coats=coats), volumes=measures(glove__coat_ml=(70.0, 205.0)))
    check(job)
    assert {"coat-1-mix", "coat-2", "coat-2-look"} <= set(ids_of(job))
    assert "Face, 1st" in step_of(job, "coat-1-mix").title


def test_no_word_of_a_maker_collides_with_one_of_ours() -> None:
    """Coats named as our own mixes and steps are, or alike but for their signs: planned as any other."""
    for names in (("skin", "back-fill"), ("fill", "coat-1"), ("a b", "a-b")):
        coats = (CoatOrder(names[0], 1.0), CoatOrder(names[1], 3.0))
        job = context(mold=MoldOrder(coats=coats), volumes=measures(glove__coat_ml=(70.0, 205.0)))
        check(job)
        assert [coat.name for coat in job.rubber.coats] == list(names)


def test_labor_follows_its_quantities() -> None:
    """Worked by hand: 0.1308 m2 in 3 layers, 8 % waste, 0.025 m2 a strip: 17 strips, 9 of them of shell 1, 15 + 0.8 x 9
    min; 10 for one through-hole; 20 + 8 x 0.52 m of seam; 3 min a cup."""
    job = context()
    assert step_of(job, "shell-1").labor_min == pytest.approx(22.2)
    assert step_of(job, "handles").labor_min == pytest.approx(10.0)
    assert step_of(job, "mark-seam").labor_min == pytest.approx(24.2)
    assert step_of(job, "coat-1-mix").labor_min == pytest.approx(3.0 * job.rubber.coats[0].cups)


def test_waits_are_the_sheets_at_the_sheets_temperature() -> None:
    """Class sheet of the slow rubber at its own 23 degC: tack window from 90 to 150 min, full cure from 48 h on."""
    job = context(shop=ShopOrder(temperature_c=23.0))
    tack, cure = step_of(job, "coat-1-look").wait_min, step_of(job, "rubber-full-cure").wait_min
    assert tack is not None
    assert cure is not None
    assert (tack.low, tack.likely, tack.high) == pytest.approx((90.0, 120.0, 150.0))
    assert cure.low == pytest.approx(48 * 60)


def test_waits_stretch_in_the_cold_by_arrhenius() -> None:
    """60 kJ/mol from 23 to 18 degC: exp(60000 / 8.314 x (1/291.15 - 1/296.15)) = 1.520 times as long."""
    warm, cold = (step_of(context(shop=ShopOrder(temperature_c=t)), "cure-rubber").wait_min for t in (23.0, 18.0))
    assert warm is not None
    assert cold is not None
    assert cold.likely / warm.likely == pytest.approx(1.520, rel=2e-3)


def test_what_is_lifted() -> None:
    """(900 + 150) ml of plastic at 1.2 g/ml = 1.26 kg; from 3 kg on (HSE L23, from memory) a lift is cautioned."""
    job = context()
    assert step_of(job, "receive").lift_kg == pytest.approx(1.26)
    assert step_of(job, "demold").lift_kg > step_of(job, "close-shell").lift_kg > 0  # type: ignore[operator]
    for step in work_steps(job):
        lifts = [text for text in step.cautions if text.startswith("Lift ")]
        assert bool(lifts) == ((step.lift_kg or 0.0) >= 3.0), step.id


def test_first_cast_is_approved_before_numbering_and_after_weighing() -> None:
    ids = ids_of(context())
    assert ids.index("weigh-cast") < ids.index("approve-first") < ids.index("number")


def test_patch_test_only_in_doubt() -> None:
    assert "patch-test" in ids_of(context(findings=(judged(Verdict.STOP, patch_test=True),)))
    assert "patch-test" not in ids_of(context(findings=(judged(),)))


HAZARDS = [
    ("isocyanate", "Isocyanate", ("skin", "back-fill")),
    ("solvent", "Solvent: vapor burns", ("clean", "release", "solvent-wipe")),
    ("metal dust", "Metal dust", ("powder-dry", "powder-wet", "burnish")),
    ("plaster dust", "Plaster dust", ("shell-1", "shell-2", "open-shell")),
    ("talc", "Talc dust", ("talc", "store-mold")),
    ("hot plaster", "Setting plaster gets hot", ("shell-1", "shell-2")),
    ("exotherm", "Curing resin gets hot", ("back-fill", "exotherm", "clean-up")),
    ("blades", "Blade: cut away", ("handles", "trim-flange", "flash")),
    ("rags", "Rags with solvent", ("wax-rubber", "solvent-wipe", "dark-wax")),
    ("saw", "guard on", ("trim-plinth",)),
]


@pytest.mark.parametrize(("hazard", "words", "ids"), HAZARDS)
def test_hazards_stand_on_their_steps_and_defer(hazard: str, words: str, ids: tuple[str, ...]) -> None:
    for id_ in ids:
        cautions = step_of(context(mold=MoldOrder(release="wax-release")), id_).cautions
        assert any(words in text for text in cautions), (hazard, id_)
        assert any("safety data sheet of each product, local code and licensed practice" in text for text in cautions)


def test_a_caution_said_before_in_its_group_is_short_and_one_grade_lower_unless_still_as_grave() -> None:
    said = {(c.step, c.text.partition(":")[0]): c for c in told(context()).cautions}
    full, short = said["powder-dry", "Metal dust"], said["powder-wet", "Metal dust again"]
    assert (full.severity, short.severity) == ("heed", "note")
    assert len(short.text) < len(full.text)
    hot = [c for c in told(context()).cautions if c.step in ("shell-2", "shell-1") and "Setting plaster" in c.text]
    assert [c.severity for c in hot] == ["stop", "heed"]
    both = [said[id_, "Isocyanate"] for id_ in ("powder-wet", "skin", "back-fill")]
    assert [c.severity for c in both] == ["stop", "stop", "stop"]
    assert both[1].text == both[2].text
    assert len(both[1].text) < len(both[0].text)


def test_a_caution_is_in_full_again_where_the_step_that_said_it_is_left_out() -> None:
    plain, kept = (next(s for s in work_steps(context(), own) if s.id == "powder-wet") for own in ("", DROPPED))
    assert any(text.startswith("Metal dust again:") for text in plain.cautions)
    assert any(text.startswith("Metal dust: do not breathe it") for text in kept.cautions)


def test_stops_are_few_enough_to_be_read() -> None:
    """At most four on one step: our own rule, no source. The grave ones are bold on the sheet."""
    for rubber in RUBBERS:
        done = told(context(mold=MoldOrder(rubber=rubber)))
        for step in done.steps:
            stops = [c for c in done.cautions if c.step == step.id and c.severity == "stop"]
            assert len(stops) <= 4, (rubber, step.id, [c.text for c in stops])


def test_aluminum_and_marble_have_their_own_cautions() -> None:
    aluminum = step_of(context(cast=CastOrder(powder="aluminum")), "powder-dry").cautions
    marble = step_of(context(cast=CastOrder(powder="marble")), "powder-dry").cautions
    assert any("Aluminum powder burns" in text for text in aluminum)
    assert any("silica" in text for text in marble)
    assert not any("Metal dust" in text for text in marble)


def test_nothing_is_called_safe() -> None:
    for rubber in RUBBERS:
        for step in work_steps(context(mold=MoldOrder(rubber=rubber))):
            for text in texts(step):
                assert not re.search(r"\b(safe|safely|harmless|non-?toxic|no risk)\b", text, re.IGNORECASE), text


def test_cautions_as_values_are_those_on_the_steps() -> None:
    made = told(context())
    on_steps = {(step.id, text) for step in made.steps for text in step.cautions}
    assert {(caution.step, caution.text) for caution in made.cautions if caution.step} == on_steps
    assert len({caution.id for caution in made.cautions}) == len(made.cautions)
    assert all(caution.severity in Severity and caution.source and caution.rule for caution in made.cautions)


def test_us_units_leave_no_metric_quantity() -> None:
    for step in work_steps(context(shop=ShopOrder(units=UnitSystem.US))):
        for text in texts(step):
            assert not re.search(r"\d ?(mm|cm|g|kg|ml|l|°C)\b", text.replace(" ml by syringe", "")), (step.id, text)


def test_one_piece_is_no_edition() -> None:
    one = context(edition=1)
    assert not any("edition" in text for text in texts(step_of(one, "approve-first")) if "runs" not in text)
    check(one)


def test_what_the_maker_drops_is_gone_and_its_cautions_stand_on_no_step() -> None:
    made = told(context(), 'drop = ["base-felt", "powder-dry"]')
    ids = [step.id for step in made.steps]
    assert not {"base-felt", "powder-dry"} & set(ids)
    assert {"coat-1-mix", "weigh-glove", "skin", "store-mold"} <= set(ids)
    assert {caution.step for caution in made.cautions} == {*ids, ""}


def test_a_laid_shell_is_opened_against_the_order_in_which_it_was_laid() -> None:
    """What is laid last laps over the other, so it is the outer one and comes off first; it is numbered 1."""
    job = context(volumes=measures(shell__seam=Seam.LAP, shell__seam_flange_mm=0.0, shell__lap_mm=40.0))
    ids = [step.id for step in work_steps(job)]
    assert ids.index("shell-2") < ids.index("shell-wax-edge") < ids.index("shell-1") < ids.index("open-shell")
    said = {id_: " ".join(step_of(job, id_).do) for id_ in ("shell-1", "open-shell", "reseat", "close-shell", "demold")}
    assert "over the outside of what is laid beside it" in said["shell-1"]
    assert "pull 1 off first" in said["open-shell"]
    assert "Lay the glove in shell 2, the last off" in said["reseat"]
    assert "Set the rest on along their arrows, 1 last" in said["close-shell"]
    assert "The rest off along their arrows, 1 first" in said["demold"]


def test_the_powder_goes_in_as_the_cup_says() -> None:
    """Where the cup's last part is the powder, the step sifts it in; where it lies between A and B, it wets it out."""
    for resin in SKINS:
        job = context(cast=CastOrder(resin=resin, powder="marble"))
        said = " ".join(step_of(job, "powder-wet").do)
        mix = job.cast.skin_mix
        assert ("sift the powder in" in said) == (mix.recipe.ingredients[-1].kind is PartKind.POWDER), resin


def test_latex_dries_and_does_not_gel() -> None:
    said = step_of(context(mold=MoldOrder(rubber="latex")), "coat-1-mix")
    assert not [text for text in (*said.do, *said.cautions) if " gel" in text]
