"""plan.json: the same bytes for the same plan, back again, and true to its own schema (JSON Schema 2020-12)."""

from __future__ import annotations

import json
from dataclasses import replace

import jsonschema
import pytest
from job_plan_sample import sample_plan

from moldwright.errors import ComputationFailed, InputRefused
from moldwright.plan.json_schema import plan_schema
from moldwright.plan.json_text import plan_from_json, plan_to_json, rounded
from moldwright.plan.plan import SCHEMA_VERSION


def test_a_plan_comes_back_as_it_was() -> None:
    plan = sample_plan()
    assert plan_from_json(plan_to_json(plan)) == plan


def test_the_contracts_names() -> None:
    tree = json.loads(plan_to_json(sample_plan()))
    assert {"schema_version", "assumed", "original", "mouth", "glove", "shell", "cast", "mixes", "steps"} <= set(tree)
    assert set(tree["mixes"][0]) >= {"for", "cup", "parts", "work_by_s", "tolerance_pct"}
    assert "for_" not in json.dumps(tree)
    assert set(tree["glove"]["volume_ml"]) == {"low", "likely", "high"}


def test_an_absent_stage_has_no_key_and_no_plinth_is_null() -> None:
    plan = sample_plan()
    plan = replace(plan, bandage=None, mouth=replace(plan.mouth, plinth=None))
    tree = json.loads(plan_to_json(plan))
    assert "bandage" not in tree
    assert tree["mouth"]["plinth"] is None
    assert plan_from_json(plan_to_json(plan)) == plan
    jsonschema.validate(tree, plan_schema(), cls=jsonschema.Draft202012Validator)


def test_a_plan_is_true_to_its_schema() -> None:
    schema = plan_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    tree = json.loads(plan_to_json(sample_plan()))
    jsonschema.validate(tree, schema, cls=jsonschema.Draft202012Validator)
    for spoiled in ({**tree, "extra": 1}, {**tree, "schema_version": 99}, {**tree, "cast": None}):
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate(spoiled, schema, cls=jsonschema.Draft202012Validator)


def test_the_schema_tells_units() -> None:
    glove = plan_schema()["$defs"]["CoatPlan"]["properties"]
    assert glove["thickness_mm"]["x-unit"] == "mm"
    assert glove["mixed_g"]["$ref"] == "#/$defs/Range"


def test_noise_in_the_last_figures_changes_no_byte() -> None:
    plan = sample_plan()
    noisy = replace(plan, cast=replace(plan.cast, volume_ml=plan.cast.volume_ml * (1 + 1e-12)))
    assert plan_to_json(noisy) == plan_to_json(plan)


def test_what_is_no_number_is_never_written() -> None:
    with pytest.raises(ComputationFailed, match="number-not-finite"):
        rounded(float("nan"))


@pytest.mark.parametrize("text", ["", "[]", "{}", f'{{"schema_version": {SCHEMA_VERSION}}}', "[" * 5000])
def test_a_torn_plan_is_refused(text: str) -> None:
    with pytest.raises(InputRefused, match="plan-unreadable"):
        plan_from_json(text)


def test_another_version_is_refused() -> None:
    with pytest.raises(InputRefused, match="plan-version"):
        plan_from_json('{"schema_version": 99}')
