"""No sentence and no name decides: with other words in every data file the plan differs in nothing but its words."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from made_up_job import commission, job_of
from scrambled_plan import without_words
from told import done

import moldwright
from moldwright.commission.orders import CastOrder, CoatOrder, MoldOrder
from moldwright.materials import library
from moldwright.plan.json_text import tree_of

SCRIPT = Path(__file__).with_name("scrambled_plan.py")
OWN = """
[resin.own-one]
like = "urethane-standard"
name = "ours"
[resin.own-two]
like = "urethane-standard"
name = "Fast + clear urethane"
[shell.own-one]
like = "printed"
name = "printed"
[shell.own-two]
like = "printed"
name = "plaster bandage of ours"
[powder.own-one]
like = "bronze"
name = "bronze"
[powder.own-two]
like = "bronze"
name = "A"
"""


def planned(*arguments: str) -> Any:
    source = os.pathsep.join((str(Path(moldwright.__file__).parents[1]), str(SCRIPT.parent)))
    done_ = subprocess.run(
        [sys.executable, str(SCRIPT), *arguments],
        capture_output=True,
        check=True,
        env={**os.environ, "PYTHONPATH": source},
    )
    return json.loads(done_.stdout)


@pytest.mark.parametrize("seed", ["1", "2"])
def test_random_words_for_every_sentence_change_nothing_else(seed: str) -> None:
    odd, plain = planned("--scrambled", seed), planned()
    assert odd["values"] == plain["values"]
    assert odd["sentences"].keys() == plain["sentences"].keys()
    same = [said for key, said in odd["sentences"].items() if said == plain["sentences"][key]]
    assert not [said for said in same if re.search("[A-Za-z]", re.sub(r"\{[^}]*\}", "", said))]


def values_of(cast: CastOrder | None = None, mold: MoldOrder | None = None) -> str:
    """Everything but the words; an own sheet's id stands in cautions' and needs' ids, so it is taken out."""
    known = library({"own.toml": OWN})
    job = job_of(commission(cast=cast, mold=mold), known)
    tree = tree_of((job.rubber, job.cast.cast, job.mixes, job.needs, done(job, known=known)))
    return json.dumps(without_words(tree)).replace("own-two", "own-one")


def test_a_resin_with_a_plus_in_its_name_is_a_resin() -> None:
    assert values_of(cast=CastOrder(resin="own-two")) == values_of(cast=CastOrder(resin="own-one"))


def test_a_shops_own_printed_shell_is_fitted_and_not_laid() -> None:
    told = values_of(mold=MoldOrder(shell="own-two"))
    assert told == values_of(mold=MoldOrder(shell="own-one"))
    assert '"shell-print"' in told
    assert not any(f'"{laid}"' in told for laid in ("shell-1", "shell-2", "shell-dry", "clay-wall"))


def test_a_shell_is_chosen_by_its_name_too() -> None:
    assert values_of(mold=MoldOrder(shell="Plaster bandage of ours")) == values_of(mold=MoldOrder(shell="own-one"))


def test_a_resin_and_a_powder_of_one_id_are_two_materials() -> None:
    """Ids are unique only within a kind."""
    known = library({"own.toml": '[resin.bronze]\nlike = "urethane-standard"\nname = "bronze cast"\n'})
    made = done(job_of(commission(cast=CastOrder(resin="bronze", powder="bronze")), known), known=known)
    quoted = [q.value for each in made.cautions if each.hazard for q in each.quantities if q.name == "material"]
    assert "bronze cast" in quoted
    assert library().powder("bronze").name in quoted


def test_a_powder_called_as_a_part_is_still_a_powder() -> None:
    assert values_of(cast=CastOrder(powder="own-two")) == values_of(cast=CastOrder(powder="own-one"))


@pytest.mark.parametrize("names", [("skin", "fill", "back-fill"), ("A", "B", "powder"), ("coat-3", "coat-2", "coat-1")])
def test_what_a_maker_calls_the_coats_changes_nothing(names: tuple[str, str, str]) -> None:
    plain, odd = (
        values_of(mold=MoldOrder(coats=tuple(map(CoatOrder, its, (0.6, 1.4, 2.0)))))
        for its in (("detail", "brushed", "stick"), names)
    )
    assert odd == plain
