"""Recipes and labels at the desk: kept, scaled, compared, dropped, put back; labels as the terminal makes them."""

from __future__ import annotations

import io
from collections.abc import Iterator
from pathlib import Path

import pypdf
import pytest
from sheets_fixture import plan
from test_stock_story import MAKING, numbered, shop_with_a_mold_and_casts
from tests.at_desk import DeskHand, hand_at

from moldwright.desk.command_label import THINGS
from moldwright.log.event import About
from moldwright.log.ids import RunId, SubjectId
from moldwright.log.run_events import Started
from moldwright.plan.json_text import plan_to_json
from moldwright.records.clock import BenchClock
from moldwright.records.shop import Shop
from moldwright.told.label_things import LABELED

STAG = RunId(SubjectId("019a0000-0000-7000-8000-0000000000aa"))
PARTS = [
    {"what": "urethane-standard-a", "mass": "100 g"},
    {"what": "bronze", "mass": "150 g"},
    {"what": "urethane-standard-b", "mass": "104.8 g"},
]


@pytest.fixture
def hand(shop_at: str, tmp_path: Path) -> Iterator[DeskHand]:
    """On either engine."""
    with hand_at(shop_at, tmp_path) as made:
        yield made


@pytest.fixture
def here(tmp_path: Path) -> Iterator[DeskHand]:
    """On a file."""
    with hand_at(str(tmp_path / "shop.db"), tmp_path) as made:
        yield made


def test_a_recipe_is_typed_in_scaled_dropped_and_put_back(hand: DeskHand) -> None:
    """354.8 g as mixed; twice of it reads 200, 500 and 709.6 g on the scale."""
    kept = hand("/api/recipes", name="museum bronze", kind="metal", parts=PARTS)
    path = f"/api/recipes/{kept['recipe']['id']}"
    scaled = hand.client.get(f"{path}/scaled?total=709.6 g").json()
    assert [part["reads_g"] for part in scaled["parts"]] == [200.0, 500.0, 709.6]
    assert any("isocyanate" in text.casefold() for text in scaled["cautions"])
    page = hand.get(f"/recipes/{kept['recipe']['id']}?total=709.6 g")
    for words in ("200.0 g", "500.0 g", "709.6 g", "safety data sheet"):
        assert words in page, words
    dropped = hand(f"{path}/drop", why="too dark")
    assert hand.client.get("/api/recipes").json()["recipes"] == []
    hand(f"/api/recipe-entries/{dropped['event']}/strike")
    assert [each["name"] for each in hand.client.get("/api/recipes").json()["recipes"]] == ["museum bronze"]


def test_a_recipe_of_a_cup_as_it_was_weighed(here: DeskHand) -> None:
    """180 g of resin were weighed for cast 1."""
    shop: Shop = here.client.app.state.shop  # type: ignore[attr-defined]
    shop_with_a_mold_and_casts(shop)
    assert "skin.cup-1" in here.get(f"/recipes/keep?run={MAKING}")
    kept = here("/api/recipes", name="otter skin", kind="color", run=MAKING, cup="skin.cup-1", cast=1)
    assert kept["recipe"]["states"][0]["mass_g"] == 180.0
    assert kept["said"].startswith("otter skin is kept.")


def test_a_part_that_is_in_no_list_is_the_shop_s_own_where_one_says_so(here: DeskHand) -> None:
    own = [{"what": "green earth", "mass": "0.4 g", "own": None}]
    (part,) = here("/api/recipes", name="a", kind="color", parts=own)["recipe"]["states"][0]["parts"]
    assert (part["stuff"]["name"], part["mass_g"]) == ("green earth", 0.4)
    refused = here("/api/recipes", 422, name="b", kind="color", parts=[{"what": "green earths", "mass": "1 g"}])
    assert refused["error"]["code"] == "unknown-material"
    assert len(here.client.get("/api/recipes").json()["recipes"]) == 1


@pytest.mark.parametrize(
    ("body", "code"),
    [
        ({}, "recipe-unclear"),
        ({"run": "FFFF-FFFF"}, "recipe-unclear"),
        ({"run": "FFFF-FFFF", "cup": "skin.cup-1"}, "not-kept"),
        ({"parts": [{"what": "bronze", "mass": "3"}]}, "quantity-unclear"),
        ({"parts": [{"what": "bronze", "mass": "0 g"}]}, "amount-out-of-range"),
        ({"parts": PARTS, "swatch": "f" * 64}, "file-missing"),
    ],
)
def test_what_is_no_recipe_is_refused(here: DeskHand, body: dict[str, object], code: str) -> None:
    status = {"not-kept": 404, "file-missing": 404}.get(code, 422)
    assert here("/api/recipes", status, name="x", kind="metal", **body)["error"]["code"] == code
    assert here.client.get("/api/recipes?gone=true").json()["recipes"] == []


def test_two_beside_each_other_and_a_table(here: DeskHand) -> None:
    for name in ("=bronze", "verdigris"):
        here("/api/recipes", name=name, kind="metal", parts=PARTS)
    page = here.get("/recipes/compare?a==bronze&b=verdigris")
    assert page.count("28.18 %") == 2, "100 of 354.8 g"
    assert "\r\n'=bronze," in here.get("/api/recipes.csv")
    assert "verdigris" not in here.get("/recipes?q=%3Dbronze")


def test_an_amount_that_cannot_be_is_told_on_the_page(here: DeskHand) -> None:
    here("/api/recipes", name="b", kind="metal", parts=PARTS)
    assert "quantity" in here.get("/recipes/b?total=much") or "mass with its unit" in here.get("/recipes/b?total=much")


def test_labels_in_their_order_from_the_first_free_one(here: DeskHand) -> None:
    """24 labels on a sheet: two from the 24th on take two sheets, and the next begins at 2."""
    lots = [here.add(number=number) for number in ("7-A", "7-B")]
    query = "&".join(f"thing=lot:{lot['id']}" for lot in reversed(lots))
    told = here.client.get(f"/api/labels?{query}&start=24").json()
    assert [label["id"] for label in told["labels"]] == [lots[1]["id"], lots[0]["id"]]
    assert (told["sheet"], told["pages"], told["next_start"]) == ("a4-70x37", 2, 2)
    answer = here.client.get(f"/api/labels.pdf?{query}&start=24")
    assert answer.headers["content-type"] == "application/pdf"
    pages = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(answer.content)).pages]
    assert [lots[1]["code"] in pages[0], lots[0]["code"] in pages[1]] == [True, True]
    page = here.get(f"/labels?{query}&start=24")
    assert 'value="24" checked' in page
    assert "start=24" in page.partition("/api/labels.pdf?")[2].partition('"')[0]


def test_words_look_through_what_gets_a_label(here: DeskHand) -> None:
    lots = [here.add(number=number) for number in ("7-A", "7-B")]
    offered = [f'value="lot:{lot["id"]}"' for lot in lots]
    for words, found in (("", [True, True]), (lots[1]["code"].lower(), [False, True]), ("zzz", [False, False])):
        page = here.get(f"/labels?q={words}")
        assert [each in page for each in offered] == found, words
    assert "Nothing to label is called like that" in page


def test_casts_and_cups_have_labels_and_what_has_none_says_why(here: DeskHand) -> None:
    shop: Shop = here.client.app.state.shop  # type: ignore[attr-defined]
    shop_with_a_mold_and_casts(shop)
    numbered(shop)
    made, clock = plan(), BenchClock("bench")
    shop.append([clock.event(About.RUN, STAG, Started(shop.keep_plan(plan_to_json(made)), "stag", 3))])
    cup = made.mixes[0].id
    told = here.client.get(f"/api/labels?thing=piece:otter 1&thing=cup:{STAG}:{cup}&single=102x51").json()
    assert [label["kind"] for label in told["labels"]] == ["cast", "cup"]
    assert any("take it off with the cup" in heed for heed in told["heeds"])
    page = here.get(f"/labels?thing=piece:otter 1&thing=cup:{STAG}:tea&thing=nonsense")
    assert f'value="cup:{STAG}:{cup}"' in page
    assert "lot:CODE" in page
    assert "1 label, 1 sheet" in page


@pytest.mark.parametrize(
    ("query", "code"),
    [
        ("thing=lot:FFFF-FFFF", "not-kept"),
        ("thing=window:1", "label-unclear"),
        ("thing=lot:{lot}&start=25", "label-start"),
        ("thing=lot:{lot}&sheet=none", "unknown-choice"),
        ("thing=lot:{lot}&single=5x5", "value-out-of-range"),
    ],
)
def test_labels_that_cannot_be_are_refused(here: DeskHand, query: str, code: str) -> None:
    lot = here.add()["id"]
    assert here.client.get(f"/api/labels.pdf?{query.format(lot=lot)}").json()["error"]["code"] == code


def test_the_terminal_and_the_page_name_the_same_things() -> None:
    assert THINGS == LABELED


def test_empty_pages_offer_one_act(here: DeskHand) -> None:
    assert "Nothing to label yet" in here.get("/labels")
    assert here.get("/recipes").count('href="/recipes/keep"') == 1
