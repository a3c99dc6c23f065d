"""The page of materials tells what the sheets' own files hold, and what is wrong with one. The figures are read from
the data files (TOML 1.0.0, by `tomllib`), not from the code that shows them."""

from __future__ import annotations

import csv
import re
import tomllib
from collections.abc import Iterator
from io import StringIO
from pathlib import Path

import pytest
from tests.at_desk import DeskHand, hand_at

import moldwright.materials

DATA = Path(moldwright.materials.__file__).parent / "data"
BAD = """[rubber.ours]
like = "addition-cure-a10-slow"
pot_life = "-3 min"
shine = 4
"""


@pytest.fixture(scope="module")
def here(tmp_path_factory: pytest.TempPathFactory) -> Iterator[DeskHand]:
    """A desk with an empty shop."""
    folder = tmp_path_factory.mktemp("materials")
    with hand_at(str(folder / "shop.db"), folder) as hand:
        yield hand


def test_every_shipped_resin_is_on_the_page_and_in_the_table(here: DeskHand) -> None:
    shipped = tomllib.loads((DATA / "resins.toml").read_text("utf-8"))["resin"]
    shown = here.get("/materials?kind=resin")
    assert shipped
    assert all(f"/materials/resin%20{id_}" in shown for id_ in shipped)
    rows = list(csv.DictReader(StringIO(here.client.get("/api/materials.csv?kind=resin").text)))
    assert {row["id"] for row in rows} == set(shipped)
    assert all(row["source"] for row in rows)


def test_every_link_of_the_page_leads_to_one_material(here: DeskHand) -> None:
    """Also of those whose word alone means several: a wax that seals and one that colors have one name."""
    links = set(re.findall(r'href="(/materials/[^"]+)"', here.get("/materials")))
    assert len(links) > 100
    assert {link: status for link in links if (status := here.client.get(link).status_code) != 200} == {}


def test_a_word_finds_a_material(here: DeskHand) -> None:
    shown = here.get("/materials?q=epoxy+slow")
    assert "/materials/resin%20epoxy-slow" in shown
    assert "addition-cure" not in shown
    assert "No material is like that" in here.get("/materials?q=zzz")


def test_a_sheet_tells_its_figures_with_their_sources_and_its_cautions(here: DeskHand) -> None:
    sheet = tomllib.loads((DATA / "resins.toml").read_text("utf-8"))["resin"]["epoxy-slow"]
    shown = here.get("/materials/epoxy-slow")
    assert "class default, from memory" in shown
    assert all(caution in shown for caution in sheet["cautions"])
    assert "safety data sheet" in shown


def test_what_an_original_is_made_of_has_a_sheet_too(here: DeskHand) -> None:
    assert "density" in here.get("/materials/original%20bronze")


def test_a_sheet_is_checked_and_nothing_of_it_kept(here: DeskHand) -> None:
    """A pot life below zero is impossible; "shine" is no key of a rubber's sheet."""
    told = here("/api/materials/check", text=BAD)
    grave = {each["where"]: each for each in told["findings"] if each["grave"]}
    assert any("pot_life" in where for where in grave)
    assert any("shine" in f"{each['where']} {each['found']}" for each in told["findings"])
    assert all(each["remedy"] for each in told["findings"])
    assert "/materials/ours" not in here.get("/materials")
    sound = here("/api/materials/check", text='[rubber.ours]\nlike = "addition-cure-a10-slow"\n')
    assert [each for each in sound["findings"] if each["grave"]] == []


def test_no_sheet_of_that_name_leads_to_the_list(here: DeskHand) -> None:
    answer = here.client.get("/materials/zzz")
    assert answer.status_code == 422
    assert 'href="/materials"' in answer.text
