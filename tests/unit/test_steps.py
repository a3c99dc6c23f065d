"""The steps of the work: complete, in order, with this job's quantities, cautions where they belong."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from steps_context import ORDER, VOLUMES, Judged, context

from moldwright.cast.resin_recipe import resin_mix
from moldwright.commission.orders import CastOrder, CoatOrder, EditionOrder, MoldOrder, ShopOrder
from moldwright.errors import InputRefused
from moldwright.job.reckoning import quantities
from moldwright.materials import library
from moldwright.plan.plan import StepPlan
from moldwright.steps import work, work_steps
from moldwright.steps.context import StepContext
from moldwright.steps.draft import drafts

STABLE = (
    "receive clean seal mount gaps release patch-test handles coat-detail-mix coat-detail coat-detail-look fill "
    "cure-rubber trim-flange mark-seam wax-rubber shell-2 shell-wax-edge shell-1 shell-dry open-shell talc peel "
    "weigh-glove rubber-full-cure reseat close-shell stand leak-check powder-dry skin back-fill demold flash "
    "trim-plinth solvent-wipe burnish dark-wax base-felt weigh-cast approve-first number pack rest store-mold"
)
ALL = library()
RUBBERS, SHELLS = [s.id for s in ALL.all("rubber")], [s.id for s in ALL.all("shell")]
DROPPED = 'drop = ["powder-dry"]'
RESINS, POWDERS = [s.id for s in ALL.all("resin")], [s.id for s in ALL.all("powder")]


def step_of(job: StepContext, id_: str) -> StepPlan:
    return next(step for step in work_steps(job) if step.id == id_)


def ids_of(job: StepContext) -> list[str]:
    return [step.id for step in work_steps(job)]


def texts(step: StepPlan) -> tuple[str, ...]:
    return (step.title, *step.needs, *step.do, *step.before, *step.cautions)


def check(job: StepContext) -> None:
    """What holds for every job: ids once, no negative minutes, every cup once, no placeholder left."""
    steps = work_steps(job)
    ids = [step.id for step in steps]
    assert len(ids) == len(set(ids))
    assert all(re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", id_) for id_ in ids)
    assert all(step.labor_min >= 0 for step in steps)
    assert all(step.do and step.before and step.cautions for step in steps)
    assert sorted(mix for step in steps for mix in step.mixes) == list(range(len(job.mixes)))
    assert not [text for step in steps for text in texts(step) if "{" in text or "}" in text]
    assert {step.per for step in steps} <= {"mold", "cast", "edition"}


def test_the_stable_ids_are_all_there() -> None:
    assert set(STABLE.split()) <= set(ids_of(context()))


def test_known_ids_hold_those_that_this_job_leaves_out() -> None:
    job = context(findings=(), volumes=replace(VOLUMES, handles=0, plinth_ml=0.0, plinth_height_mm=0.0))
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
    check(context(cast=CastOrder(resin=resin, powder=powder, backfill=resin)))


def test_no_back_fill() -> None:
    job = context(cast=CastOrder(backfill="none"))
    check(job)
    assert "back-fill" not in ids_of(job)


def test_each_cup_stands_on_the_step_that_mixes_it() -> None:
    job = context()
    for name, id_ in (("detail", "coat-detail-mix"), ("skin", "skin"), ("back-fill", "back-fill")):
        assert step_of(job, id_).mixes == job.mixes_for(name)


def test_fill_follows_its_coat_and_stands_before_the_look() -> None:
    ids = ids_of(context())
    assert ids.index("coat-brushed") < ids.index("fill") < ids.index("coat-brushed-look")
    assert ids.index("coat-stick") < ids.index("fill-after-stick") < ids.index("coat-stick-look")


def test_no_fill_no_fill_step() -> None:
    job = context(volumes=replace(VOLUMES, fill_ml=0.0, glove_ml=335.0, spots=()))
    check(job)
    assert "fill" not in ids_of(job)


def test_coats_of_the_makers_own_and_their_ids() -> None:
    coats = (CoatOrder("Face, 1st", 1.0), CoatOrder("body", 3.0))
    job = context(mold=MoldOrder(coats=coats), volumes=replace(VOLUMES, coat_ml=(70.0, 205.0)))
    check(job)
    assert {"coat-face-1st-mix", "coat-body", "coat-body-look"} <= set(ids_of(job))


def test_two_coats_with_the_same_id_are_refused() -> None:
    coats = (CoatOrder("a b", 1.0), CoatOrder("a-b", 3.0))
    job = context(mold=MoldOrder(coats=coats), volumes=replace(VOLUMES, coat_ml=(70.0, 205.0)))
    with pytest.raises(InputRefused, match="step-id-twice"):
        work_steps(job)


def test_labor_follows_its_quantities() -> None:
    """Worked by hand: 15 + 0.8 x 24 strips; 10 for one through-hole; 20 + 8 x 0.52 m of seam; 1 + 2 cups x 3 min."""
    job = context()
    assert step_of(job, "shell-1").labor_min == pytest.approx(34.2)
    assert step_of(job, "handles").labor_min == pytest.approx(10.0)
    assert step_of(job, "mark-seam").labor_min == pytest.approx(24.2)
    assert step_of(job, "coat-detail-mix").labor_min == pytest.approx(3.0 * len(job.mixes_for("detail")))


def test_waits_are_the_sheets_at_the_sheets_temperature() -> None:
    """Class sheet of the slow rubber at its own 23 degC: tack window from 90 to 150 min, full cure from 48 h on."""
    job = context(shop=ShopOrder(temperature_c=23.0))
    tack, cure = step_of(job, "coat-detail-look").wait_min, step_of(job, "rubber-full-cure").wait_min
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
    assert "patch-test" in ids_of(context(findings=(Judged("stop", patch_test=True),)))
    assert "patch-test" not in ids_of(context(findings=(Judged(),)))


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
    told = {(c.step, c.text.partition(":")[0]): c for c in work(context()).cautions}
    full, short = told["powder-dry", "Metal dust"], told["powder-wet", "Metal dust again"]
    assert (full.severity, short.severity) == ("heed", "note")
    assert len(short.text) < len(full.text)
    hot = [c for c in work(context()).cautions if c.step in ("shell-2", "shell-1") and "Setting plaster" in c.text]
    assert [c.severity for c in hot] == ["stop", "heed"]
    both = [told[id_, "Isocyanate"] for id_ in ("skin", "back-fill")]
    assert [c.severity for c in both] == ["stop", "stop"]
    assert len(both[1].text) < len(both[0].text)


def test_a_caution_is_in_full_again_where_the_step_that_said_it_is_left_out() -> None:
    plain, kept = (next(s for s in work_steps(context(), own) if s.id == "powder-wet") for own in ("", DROPPED))
    assert any(text.startswith("Metal dust again:") for text in plain.cautions)
    assert any(text.startswith("Metal dust: do not breathe it") for text in kept.cautions)


def test_stops_are_few_enough_to_be_read() -> None:
    """At most four on one step: our own rule, no source. The grave ones are bold on the sheet."""
    for rubber in RUBBERS:
        done = work(context(mold=MoldOrder(rubber=rubber)))
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
    done = work(context())
    told = {(caution.step, caution.text) for caution in done.cautions}
    assert told == {(step.id, text) for step in done.steps for text in step.cautions}
    assert all(caution.severity in ("note", "heed", "stop") and caution.source for caution in done.cautions)


def test_us_units_leave_no_metric_quantity() -> None:
    for step in work_steps(context(shop=ShopOrder(units="us"))):
        for text in texts(step):
            assert not re.search(r"\d ?(mm|cm|g|kg|ml|l|°C)\b", text), (step.id, text)


def test_one_piece_is_no_edition() -> None:
    job = context()
    one = replace(job, commission=replace(job.commission, edition=EditionOrder(1)))
    assert not any("edition" in text for text in texts(step_of(one, "approve-first")) if "runs" not in text)
    check(one)


def test_the_whole_jobs_quantities_carry_these_steps() -> None:
    made = quantities(ORDER, library(), VOLUMES, 'drop = ["base-felt"]')
    ids = [step.id for step in made.steps]
    assert "base-felt" not in ids
    assert {"coat-detail-mix", "weigh-glove", "skin", "store-mold"} <= set(ids)
    assert {caution.step for caution in made.cautions} <= {*ids, ""}


def test_a_laid_shell_is_opened_against_the_order_in_which_it_was_laid() -> None:
    """The half laid last laps over the other, so it is the outer one and comes off first; it is numbered 1."""
    job = context()
    ids = [step.id for step in work_steps(job)]
    assert ids.index("shell-2") < ids.index("shell-wax-edge") < ids.index("shell-1") < ids.index("open-shell")
    said = {id_: " ".join(step_of(job, id_).do) for id_ in ("shell-1", "open-shell", "reseat", "close-shell", "demold")}
    assert "Overlap half 2" in said["shell-1"]
    assert "Half 1 lies on top: pull it off first" in said["open-shell"]
    assert "Lay the glove in half 2" in said["reseat"]
    assert "Set half 1 on" in said["close-shell"]
    assert "Half 1 off" in said["demold"]


def test_the_powder_goes_in_as_the_cup_says() -> None:
    """Where the cup's last part is the powder, the step sifts it in; where it lies between A and B, it wets it out."""
    for resin in RESINS:
        job = context(cast=CastOrder(resin=resin, powder="marble"))
        said = " ".join(step_of(job, "powder-wet").do)
        mix = resin_mix(job.resin, job.powder, "", 0.0, job.resin_pot_life_s)
        assert ("sift the powder in" in said) == (mix.recipe.ingredients[-1].name == "marble flour"), resin


def test_latex_dries_and_does_not_gel() -> None:
    said = step_of(context(mold=MoldOrder(rubber="latex")), "coat-detail-mix")
    assert not [text for text in (*said.do, *said.cautions) if " gel" in text]
