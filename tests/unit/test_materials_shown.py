"""What `materials show` prints can be written into an own sheet: each field under the name that it prints."""

from __future__ import annotations

import json
from dataclasses import fields
from typing import Any

import pytest

from moldwright.desk.show_materials import listed, shown
from moldwright.errors import InputRefused
from moldwright.materials import Figure, Sheet, check_sheet, library
from moldwright.materials.kinds import KINDS as SHEET_KINDS
from moldwright.materials.originals import original_materials
from moldwright.told.material_words import KINDS

SHEETS = [(kind, sheet.id) for kind in SHEET_KINDS for sheet in library().all(kind)]
BESIDE = ("own_file", "provenance")
"""What JSON tells of the sheet as a file, not of the material."""


def as_toml(value: Any) -> str:
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key} = {as_toml(each)}" for key, each in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(map(as_toml, value)) + "]"
    return json.dumps(value, ensure_ascii=False)


def loaded(kind: str, rows: dict[str, Any], id_: str = "ours") -> Sheet:
    """The sheet that a shop gets who writes these rows under an id of its own, from no class."""
    text = f"[{kind}.{id_}]\n" + "\n".join(f"{as_toml(key)} = {as_toml(value)}" for key, value in rows.items())
    stops = [finding for finding in check_sheet(text) if finding.severity == "stop"]
    assert stops == [], (id_, [stop.refusal().sentence() for stop in stops])
    return library({"own.toml": text}).sheets[kind][id_]


@pytest.mark.parametrize(("kind", "id_"), SHEETS)
def test_what_json_shows_loads_again(kind: str, id_: str) -> None:
    tree = {key: value for key, value in json.loads(shown(f"{kind} {id_}", None, True)).items() if value is not None}
    rows = {key: value for key, value in tree.items() if key not in (*BESIDE, "kind", "id")}
    assert_alike(loaded(kind, rows), library().sheets[kind][id_], 0.0)


@pytest.mark.parametrize(("kind", "id_"), SHEETS)
def test_what_is_printed_loads_again(kind: str, id_: str) -> None:
    """Line by line: the name of a field, two blanks or more, its value, and behind a point where it comes from."""
    printed = [line for line in shown(f"{kind} {id_}", None, False).splitlines()[1:-1] if not line.startswith("  !")]
    rows = {line[2:24].strip(): line[25:].partition("  · ")[0] for line in printed}
    assert_alike(loaded(kind, rows), library().sheets[kind][id_], 0.05)


def assert_alike(own: Sheet, shipped: Sheet, tolerance: float) -> None:
    for each in fields(shipped):
        ours, theirs = getattr(own, each.name), getattr(shipped, each.name)
        if each.name in (*BESIDE, "id"):
            continue
        if isinstance(theirs, Figure):
            assert (ours.low, ours.likely, ours.high) == pytest.approx(
                (theirs.low, theirs.likely, theirs.high), rel=tolerance
            ), each.name
            assert ours.unit == theirs.unit
        elif each.name == "cautions":
            assert "; ".join(ours) == "; ".join(theirs)
        elif not (isinstance(theirs, tuple) and theirs and isinstance(theirs[0], Figure)):
            assert ours == theirs, each.name


def test_kind_and_id_may_stand_in_the_table_but_only_as_they_are() -> None:
    text = '[powder.bronze]\nid = "bronze"\nkind = "powder"\n'
    assert check_sheet(text) == ()
    assert [found.code for found in check_sheet('[powder.bronze]\nid = "brass"')] == ["unknown-key"]


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_is_listed(kind: str) -> None:
    rows = json.loads(listed(kind, None, True))
    assert rows
    assert {row["kind"] for row in rows} == {kind}
    assert listed(f"{kind.upper()}s", None, False).splitlines()[0] == kind


@pytest.mark.parametrize("kind", ["release", "sealer", "powder", "resin"])
def test_the_list_says_how_to_leave_a_kind_out(kind: str) -> None:
    assert listed(kind, None, False).endswith('= "none".')
    assert "none" not in listed("rubber", None, False)


def test_originals_are_listed_and_shown_as_a_commission_may_name_them() -> None:
    told = listed("original", None, False)
    assert all(f"\n  {material.name}" in told for material in original_materials())
    assert "(original)" in shown("oil clay, sulfur-free", None, False)
    assert json.loads(shown("original bronze", None, True))["tags"] == ["nonporous", "metal", "copper-alloy"]
    with pytest.raises(InputRefused, match="original"):
        listed("orignal", None, False)
