"""The maker's own steps file: drop, time anew, add; what is unknown is refused with the nearest known word."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from steps_context import VOLUMES, context, judged, work_steps
from told import ToldStep, done, told

from moldwright.commission.orders import MoldOrder, ShopOrder, UnitSystem
from moldwright.errors import InputRefused
from moldwright.materials.rules import Verdict
from moldwright.plan.cautions import Severity
from moldwright.plan.ids import NOWHERE
from moldwright.plan.lines import Line
from moldwright.ranges import Range
from moldwright.steps.own_file import own_steps

JOB = context()
PLAIN = work_steps(JOB)
IDS = [step.id for step in PLAIN]
DROPPABLE = [step.id for step in PLAIN if not step.mixes]


def steps(text: str) -> dict[str, ToldStep]:
    return {step.id: step for step in work_steps(JOB, text)}


def test_an_empty_file_changes_nothing() -> None:
    assert work_steps(JOB, "# nothing of our own yet\n") == PLAIN


def test_drop() -> None:
    assert [id_ for id_ in IDS if id_ != "base-felt"] == list(steps('drop = ["base-felt"]'))


def test_a_dropped_steps_stop_cautions_move_to_the_next_step_that_stays() -> None:
    plain = next(step for step in PLAIN if step.id == "leak-check")
    stop = next(text for text in plain.cautions if "A leak costs the cast" in text)
    kept = steps('drop = ["leak-check"]')["powder-wet"]
    assert any(text.startswith("From the step left out, Check for leaks") and stop in text for text in kept.cautions)


def test_a_step_left_out_is_named_by_its_plain_title() -> None:
    """Its quantities, the number of the coat for one, are those of no other step."""
    made = work_steps(JOB, 'drop = ["coat-1-look"]')
    moved = [text for step in made for text in step.cautions if text.startswith("From the step left out")]
    assert moved
    assert all(text.startswith("From the step left out, Look, repair, wait: coat:") for text in moved)


def test_two_dropped_in_a_row_and_the_last_one() -> None:
    after = steps('drop = ["stand", "leak-check"]')["powder-wet"].cautions
    assert any("A mold that tips" in text for text in after)
    assert any("A leak costs" in text for text in after)
    last = list(work_steps(JOB, 'drop = ["rest", "clean-up", "store-mold"]'))[-1]
    assert last.id == "pack"
    assert any("Curing resin gets hot" in text for text in last.cautions)


def test_a_moved_caution_keeps_severity_and_stands_on_its_new_step() -> None:
    moved = [c for c in told(JOB, 'drop = ["leak-check"]').cautions if c.text.startswith("From the step left out")]
    assert {(c.step, c.severity) for c in moved} == {("powder-wet", "stop")}


def test_one_file_fits_jobs_with_fewer_coats_and_other_fills() -> None:
    text = 'drop = ["fill-after-coat-7"]\n[retime]\nfill = "9 min"\ncoat-5-mix = "9 min"\n'
    assert "coat-1-mix" in steps(text)
    with pytest.raises(InputRefused, match="unknown-step"):
        steps('drop = ["coat-9-mix"]')


def test_a_step_with_cups_is_not_dropped() -> None:
    with pytest.raises(InputRefused, match="own-step-holds-cups"):
        steps('drop = ["skin"]')


def test_dropping_what_this_job_lacks_is_no_fault() -> None:
    job = context(findings=())
    assert work_steps(job, 'drop = ["patch-test"]') == work_steps(job)


def test_retime_labor_wait_and_both() -> None:
    made = steps(
        '[retime]\nclean = "1 h 30 min"\ntalc = { labor = "3 min" }\ncure-rubber = { wait = ["8 h", "10 h", "14 h"] }'
    )
    assert made["clean"].labor_min == pytest.approx(90.0)
    assert made["talc"].labor_min == pytest.approx(3.0)
    assert made["cure-rubber"].wait_min == Range(480.0, 600.0, 840.0)
    assert made["cure-rubber"].labor_min == next(step for step in PLAIN if step.id == "cure-rubber").labor_min


def test_a_retimed_step_says_one_time_in_one_place() -> None:
    """Its own sentences, those of the steps after it and the wait itself; not the steps before, nor another coat's."""
    own = """[retime]
cure-rubber = { wait = ["7 h 10 min", "7 h 15 min", "7 h 20 min"] }
coat-1-look = { wait = "77 min" }
exotherm = { wait = "3 h 20 min" }
rubber-full-cure = { wait = "41 h" }
"""
    made = steps(own)
    assert "7 h 15 (7 h 10–7 h 20)" in " ".join(made["cure-rubber"].do)
    assert "7 h 15 (7 h 10–7 h 20)" in " ".join(made["peel"].before)
    assert "Next coat from 77 min on" in " ".join(made["coat-1-look"].do)
    assert "77 min" not in " ".join(made["coat-2-look"].do)
    assert "Demold from 3 h 20 after" in " ".join(made["exotherm"].do)
    assert "Its time has gone: 3 h 20." in made["demold"].before
    assert any("full cure, 41 h." in text for text in made["wash-glove"].before)
    plain = {step.id: step for step in PLAIN}
    assert made["patch-test"] == plain["patch-test"]
    assert made["coat-2-look"] == plain["coat-2-look"]


ADD = """
[[add]]
after = "clean"
title = "Show it to the client"
labor = "15 min"
wait = "2 h"
do = ["Set it under the lamp."]
cautions = ["Fragile."]
[[add]]
after = "clean"
id = "second-look"
title = "Look again"
labor = "5 min"
per = "cast"
"""


def test_add_after_a_step_in_the_files_order() -> None:
    made = list(work_steps(JOB, ADD))
    place = [step.id for step in made].index("clean")
    first, second = made[place + 1], made[place + 2]
    assert (first.id, first.labor_min, first.wait_min) == ("show-it-to-the-client", 15.0, Range.exactly(120.0))
    assert first.cautions == ("Fragile.",)
    assert (second.id, second.per) == ("second-look", "cast")


def test_a_title_without_latin_letters_has_an_id_too() -> None:
    made = work_steps(JOB, '[[add]]\nafter = "clean"\ntitle = "Показать заказчику"\nlabor = "5 min"')
    assert any(step.id == "add-0" for step in made)


def test_add_after_a_step_that_this_job_lacks_keeps_its_place() -> None:
    made = [
        s.id for s in work_steps(context(findings=()), '[[add]]\nafter = "patch-test"\ntitle = "Tea"\nlabor = "5 min"')
    ]
    assert made[made.index("lay-out") + 1] == "tea"


@pytest.mark.parametrize(
    ("text", "code", "said"),
    [
        ('drop = ["base-flet"]', "unknown-step", "base-felt"),
        ('[retime]\nclaen = "5 min"', "unknown-step", "clean"),
        ('[[add]]\nafter = "peal"\ntitle = "x"\nlabor = "5 min"', "unknown-step", "peel"),
        ('dorp = ["clean"]', "unknown-key", "drop"),
        ('[retime]\nclean = { labour = "5 min" }', "unknown-key", "labor"),
        ('[[add]]\nafter = "peel"\ntitle = "x"\nlabor = "5 min"\nneed = []', "unknown-key", "needs"),
        ('[[add]]\nafter = "peel"\nlabor = "5 min"', "own-step-incomplete", "title"),
        ('[[add]]\nafter = "peel"\ntitle = "clean"\nlabor = "5 min"', "own-step-id-taken", "another id"),
        (
            '[[add]]\nafter = "peel"\ntitle = "x"\nlabor = "5 min"\nper = "week"',
            "own-steps-unclear",
            "mold, batch, cast",
        ),
        ("[retime]\nclean = 20", "own-steps-unclear", "20 min"),
        ('[retime]\nclean = "soon"', "duration-unclear|quantity-unclear", ""),
        ('[retime]\nclean = { wait = ["1 h", "2 h"] }', "own-steps-unclear", "low, likely and high"),
        ('[retime]\nclean = { wait = ["3 h", "2 h", "1 h"] }', "range-out-of-order", ""),
        ('drop = "clean"', "own-steps-unclear", "list"),
        ("drop = [", "own-steps-unreadable", "line"),
        ("retime = 3", "own-steps-unclear", "tables"),
        ("add = [3]", "own-steps-unclear", "tables"),
    ],
)
def test_refused_with_a_remedy(text: str, code: str, said: str) -> None:
    with pytest.raises(InputRefused, match=code) as caught:
        steps(text)
    assert said in str(caught.value)


EVERY_TYPE = (
    "true", "7", "-0", f"{'9' * 5000}", "0x" + "f" * 5000, "1e999", "nan", "-inf", "-0.0", "1.5", '""', '" "',
    '"\\u0000"', '"\\u202e"', '"two\\nlines"', f'"{"x" * 100_000}"', "2026-01-01", "2026-01-01T00:00:00Z",
    "00:00:00", "[]", "[[]]",
    "[[[[[[[[]]]]]]]]", "[true]", f"[{'9' * 5000}]", "{}", "{a = 1}", "[{}]", "[{a = {b = {c = []}}}]",
)  # fmt: skip
KEYS = (
    "drop = {}", "retime = {}", "add = {}", "[retime]\nclean = {}", "[retime]\nclean = {{ labor = {} }}",
    "[retime]\nclean = {{ wait = {} }}", '[retime]\nclean = {{ wait = ["1 h", {}, "3 h"] }}',
    *(f'[[add]]\nafter = "clean"\ntitle = "Tea"\nlabor = "5 min"\n{key} = {{}}'
      for key in ("id", "per", "wait", "needs", "do", "before", "cautions")),
    '[[add]]\nafter = {}\ntitle = "Tea"\nlabor = "5 min"', '[[add]]\nafter = "clean"\ntitle = {}\nlabor = "5 min"',
    '[[add]]\nafter = "clean"\ntitle = "Tea"\nlabor = {}',
)  # fmt: skip


@pytest.mark.parametrize("key", KEYS)
@pytest.mark.parametrize("value", EVERY_TYPE, ids=range(len(EVERY_TYPE)))
def test_every_type_of_toml_under_every_key_is_taken_or_refused_with_a_limit(key: str, value: str) -> None:
    """The types are those of TOML 1.0.0; an empty list, and an empty table under [retime], ask for nothing."""
    refused = refusal(key.format(value))
    if refused is None:
        assert value in ("[]", "{}")
        return
    assert refused.remedy
    assert refused.limit not in (None, "")
    assert len(refused.sentence()) < 600


def refusal(text: str) -> InputRefused | None:
    try:
        own_steps(text)
    except InputRefused as refused:
        return refused
    return None


@settings(max_examples=40, deadline=None)
@given(st.sets(st.sampled_from(DROPPABLE)))
def test_any_droppable_steps_go_and_no_stop_caution_is_lost(drop: set[str]) -> None:
    made = told(JOB, f"drop = {sorted(drop)!r}".replace("'", '"'))
    assert [step.id for step in made.steps] == [id_ for id_ in IDS if id_ not in drop]
    said = " ".join(caution.text for caution in made.cautions)
    full: dict[str, str] = {}
    for caution in told(JOB).cautions:
        in_full = full.setdefault(caution.rule, caution.text)
        # A short form may end on the step that says it in full.
        assert caution.severity != "stop" or caution.text in said or (caution.text != in_full and in_full in said)
    assert [mix for step in made.steps for mix in step.mixes] == [mix.id for mix in JOB.mixes]


@settings(max_examples=30, deadline=None)
@given(st.dictionaries(st.sampled_from(IDS), st.integers(0, 600)))
def test_any_step_takes_any_labor(times: dict[str, int]) -> None:
    rows = "\n".join(f'{id_} = "{minutes} min"' for id_, minutes in times.items())
    made = steps(f"[retime]\n{rows}\n")
    for step in PLAIN:
        assert made[step.id].labor_min == times.get(step.id, step.labor_min)
        assert made[step.id].wait_min == step.wait_min


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    thickness=st.floats(2.0, 10.0),
    temperature=st.floats(16.0, 26.0),
    units=st.sampled_from(UnitSystem),
    shell=st.sampled_from(["plaster bandage", "fiber-gypsum", "printed"]),
)
def test_any_job_has_sound_steps(thickness: float, temperature: float, units: UnitSystem, shell: str) -> None:
    shop = ShopOrder(temperature_c=temperature, units=units)
    job = context(mold=MoldOrder(thickness_mm=round(thickness, 1), shell=shell), shop=shop, volumes=VOLUMES)
    made = work_steps(job)
    assert len({step.id for step in made}) == len(made)
    for step in made:
        assert step.labor_min >= 0.0
        assert step.wait_min is None or 0.0 < step.wait_min.low <= step.wait_min.likely <= step.wait_min.high
    assert [mix for step in made for mix in step.mixes] == [mix.id for mix in job.mixes]


@pytest.mark.parametrize(
    "drop", [["lay-out"], ["patch-test"], ["lay-out", "clean-original", "inspect"], ["powder-dry"]]
)
@pytest.mark.parametrize("patch_test", [False, True])
def test_a_stop_of_this_job_moves_with_its_step(drop: list[str], patch_test: bool) -> None:
    """Not only the data's own cautions: what the pair of materials, the shape and the sheets ask for as well."""
    job = context(findings=(judged(Verdict.STOP, patch_test=patch_test),))
    plain = [each for each in done(job).cautions if each.severity is Severity.STOP]
    made = done(job, f"drop = {[id_ for id_ in drop if id_ in IDS]!r}".replace("'", '"'))
    moved = [each for each in made.cautions if each.severity is Severity.STOP]
    assert {each.rule for each in moved} >= {each.rule for each in plain}
    assert {each.step for each in moved} <= {step.id for step in made.steps}


def test_the_full_hazards_move_when_nobody_lays_out() -> None:
    full = [each for each in done(JOB, 'drop = ["lay-out"]').cautions if Line("hazard.full") in each.lines]
    assert full
    assert all(each.step != NOWHERE for each in full)
