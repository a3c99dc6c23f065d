"""A remedy is a value: a command line says it as a command, a page as a field or a place, and never the other's words.

Source: common practice, no source; the commands are those that the command line itself knows.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from at_desk import app_of, at_desk, settings_in
from fastapi.testclient import TestClient
from typer.main import get_command

import moldwright
from moldwright.commission.keys import ValueKind, keys
from moldwright.commission.orders import MoldOrder, OriginalOrder
from moldwright.commission.reading import commission_from_toml
from moldwright.desk.main import app
from moldwright.desk.ways import remedy_line
from moldwright.errors import InputRefused, MoldwrightError, refusal_of
from moldwright.job.sources import refuse_other_height, refuse_pieces_without_form
from moldwright.mold.flange_room import keep_from_wall_mm
from moldwright.photos.poses.refuse import no_sheet
from moldwright.plan.original import Source
from moldwright.records.clock import BenchClock
from moldwright.records.pieces.write import take_in
from moldwright.ways import COMMANDS, Change, Deed
from moldwright.web.inside import Insides
from moldwright.web.long_work.job import JobId, LongJob, WorkKind, WorkState
from moldwright.web.long_work.pieces import last_plan_work
from moldwright.web.refusals import said
from moldwright.web.ways import PLACES
from moldwright.web.words.asked import CALLED, GROUPS

PACKAGE = Path(moldwright.__file__).parent
OF_A_TERMINAL = re.compile(r"`?moldwright [a-z]|\[[a-z]+(\.[a-z_]+)?\]|\b[a-z_]+ = [\"'{\[]|--[a-z]")
"""A command, a table of a commission, a key with its value, an option."""
JOB = JobId("019e2b54-7c00-7000-8000-000000000001")
CLOSED = ("web/doors/invited.py", "web/pages/trust/route.py", "archive/restore.py")
"""What is done while the desk is closed: no page can do it, so the command is told there too."""
NAMES_A_KEY = re.compile(r"\b(original|edition|mold|cast|shop)\.[a-z]|\blevels\[|⟦|⟧")
BASE = {"original.displaced": "1.9 l", "original.weight": "2 kg", "original.density": "1.1 g/ml"}
FOOT, BELLY = {"at": "0", "girth": "352"}, {"at": "99", "girth": "133"}
TOP = {"at": "156", "girth": "90"}
TAPES: tuple[tuple[dict[str, Any], str], ...] = (
    ({"levels": [FOOT, {"at": "99", "girth": "sideways"}, TOP]}, "original.tape.levels[1].girth"),
    ({"levels": [FOOT, BELLY, {"at": "156", "girth": "9999999"}]}, "original.tape.levels[2].girth"),
    ({"levels": [FOOT, TOP, BELLY]}, "original.tape.levels[2].at"),
    ({"levels": [FOOT, {**BELLY, "breadth": "90"}, TOP]}, "original.tape.levels[1].breadth"),
    ({"levels": [FOOT, BELLY, {"at": "400", "girth": "90"}]}, "original.height"),
    ({"levels": [FOOT, {"at": "99", "breadth": "40"}, TOP]}, "original.tape.levels[1].girth"),
    ({"levels": [FOOT, BELLY, TOP], "limbs": [{"name": "arm", "levels": [FOOT, BELLY]}]},
     "original.tape.limbs[0].joins_at"),
)  # fmt: skip
"""Tapes that cannot be, and the field that each is about."""
FAMILIES = ("InputRefused", "NoSafePlan", "ComputationFailed", "RecordConflict")


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    with at_desk(settings_in(tmp_path_factory.mktemp("remedies"))) as found:
        yield found


def test_every_deed_has_a_command_that_there_is() -> None:
    known = get_command(app)
    assert set(COMMANDS) == set(Deed)
    for words in COMMANDS.values():
        at, rest = known, words.split()
        while rest and rest[0] in getattr(at, "commands", {}):
            at = at.commands[rest.pop(0)]  # type: ignore[attr-defined]
        assert at is not known, words
        assert not hasattr(at, "commands"), words
        options = [each for each in rest if each.startswith("-")]
        assert {option for parameter in at.params for option in parameter.opts} >= set(options), words


def test_every_place_that_a_page_leads_to_is_there(client: TestClient) -> None:
    for _, path in PLACES.values():
        assert client.get(path).status_code == 200, path


REFUSED = (
    ("GET", "/pieces/zzzz-zzzz"), ("GET", "/shelf/zzzz-zzzz"), ("GET", "/molds/zzzz-zzzz"), ("GET", "/bench/zzzz-zzzz"),
    ("GET", "/editions/zzzz-zzzz"), ("GET", "/recipes/zzzz-zzzz"), ("POST", "/api/lots/zzzz-zzzz/note"),
    ("POST", "/api/lot-entries/zzzz-zzzz/strike"), ("POST", "/api/mold-entries/zzzz-zzzz/strike"),
    ("POST", "/api/lots"), ("POST", "/api/pieces/zzzz-zzzz/plan"),
)  # fmt: skip
TYPED = {"text": "x", "material": "moonstone", "amount": "5 kg", "why": ""}


@pytest.mark.parametrize(("method", "path"), REFUSED)
def test_what_the_desk_refuses_is_told_without_a_terminal_s_words(client: TestClient, method: str, path: str) -> None:
    answer = client.request(method, path, headers={"accept": "text/html"}, json=TYPED if method == "POST" else None)
    bars = re.findall(r'<section class="error" role="alert">.*?</section>', answer.text, re.S)
    told = answer.text if method == "POST" else " ".join(bars)
    assert answer.status_code in (404, 405, 422) or bars
    assert not OF_A_TERMINAL.search(told)


def told_of(client: TestClient, answers: dict[str, Any], way: str) -> list[dict[str, str]]:
    draft = client.post("/api/take-in", json={"answers": {}, "beside": {"way": way}}).json()["id"]
    sent = {"answers": answers, "beside": {"way": way}}
    wrong: list[dict[str, str]] = client.post(f"/api/take-in/{draft}/check", json=sent).json()["wrong"]
    client.delete(f"/api/take-in/{draft}")
    return wrong


def refuse_keys(wrong: list[dict[str, str]]) -> None:
    for each in wrong:
        told = " ".join(each[name] for name in ("found", "wanted", "remedy", "field"))
        assert not NAMES_A_KEY.search(told), told
        assert not OF_A_TERMINAL.search(told), told


def test_every_key_of_a_commission_has_a_name_on_pages() -> None:
    assert set(CALLED) == {key.dotted for rows in keys().values() for key in rows.values()}


@pytest.mark.parametrize("written", ["sideways", "999999999", "x" * 600])
def test_what_a_page_may_ask_is_refused_in_its_own_words_at_its_own_field(client: TestClient, written: str) -> None:
    asked = {key: way for way, rows in GROUPS.items() for key, _ in rows}
    refused = set()
    for key, group in asked.items():
        wrong = told_of(client, {**BASE, key: written}, group if group in ("scan", "photos") else "water")
        refuse_keys(wrong)
        refused |= {each["key"] for each in wrong}
    typed = {key for key in asked if keys()[key.split(".")[0]][key.split(".")[1]].kind is ValueKind.LENGTH}
    assert typed <= refused


@pytest.mark.parametrize(("tape", "key"), TAPES)
def test_a_tape_that_cannot_be_leads_to_its_cell(client: TestClient, tape: dict[str, Any], key: str) -> None:
    (wrong,) = told_of(client, {"original.tape": tape, "original.height": "190"}, "tape")
    assert wrong["key"] == key
    assert wrong["field"]
    refuse_keys([wrong])


def test_an_answer_that_needs_another_names_both(client: TestClient) -> None:
    (wrong,) = told_of(client, {"original.displaced": "1.9 l", "original.solid": "yes"}, "water")
    assert "“Is it solid all through”" in wrong["found"]
    assert "“What it weighs”" in wrong["remedy"]


def mold_of(text: str) -> MoldOrder:
    return commission_from_toml(f'[original]\ndisplaced = "1.2 l"\n[mold]\n{text}\n').mold


def order_of(text: str) -> OriginalOrder:
    return commission_from_toml(f'[original]\nphotos = "photos"\n{text}\n').original


PLANNED: tuple[tuple[Callable[[], object], str], ...] = (
    (lambda: keep_from_wall_mm(6.0, 4.0), "mold.flange"),
    (lambda: refuse_pieces_without_form(mold_of("pieces = 3"), Source.WATER), "mold.pieces"),
    (lambda: refuse_other_height(300.0, order_of('height = "100 mm"')), "original.bar"),
)


@pytest.mark.parametrize(("refusing", "key"), PLANNED, ids=[key for _, key in PLANNED])
def test_a_plan_s_refusal_names_its_field_at_a_page_and_its_key_at_a_terminal(
    refusing: Callable[[], object], key: str
) -> None:
    with pytest.raises(MoldwrightError) as caught:
        refusing()
    refused = refusal_of(caught.value.as_kept())
    assert isinstance(refused.way, Change)
    assert refused.way.key == key
    table, name = key.split(".")
    assert f"write {name} = " in remedy_line(refused)
    assert f"[{table}]" in remedy_line(refused)
    assert not OF_A_TERMINAL.search(" ".join(said(refused).values()))


def test_a_sheet_that_is_in_no_photo_leads_to_where_photos_are_taken_in() -> None:
    assert said(no_sheet(12))["path"] == "/take-in"
    assert "`moldwright photos`" in remedy_line(no_sheet(12))


def test_no_remedy_below_the_command_line_names_a_command() -> None:
    found = {
        f"{file.relative_to(PACKAGE)}: {text}"
        for file in PACKAGE.rglob("*.py")
        if file.relative_to(PACKAGE).parts[0] != "desk" and str(file.relative_to(PACKAGE)) not in CLOSED
        for text in remedies(ast.parse(file.read_text("utf-8")))
        if "moldwright " in text
    }
    assert not found


def remedies(tree: ast.AST) -> Iterator[str]:
    """Every text that stands in a refusal, or in a value that is called a remedy."""
    for node in ast.walk(tree):
        refusal = isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in FAMILIES
        called = isinstance(node, ast.Assign) and any(
            isinstance(to, ast.Name) and to.id == "remedy" for to in node.targets
        )
        if refusal or called:
            yield from (e.value for e in ast.walk(node) if isinstance(e, ast.Constant) and isinstance(e.value, str))


def test_a_refused_plan_is_mended_by_what_its_remedy_tells(client: TestClient) -> None:
    insides: Insides = app_of(client).state.insides
    shop, work = insides.own.shop, insides.own.work
    text = '[original]\ndisplaced = "1.90 l"\n[mold]\nflange = "16 mm"  # as ever\n[edition]\ncount = 12\n'
    piece = take_in(shop, BenchClock("test"), text, {}, "Otter")
    why = InputRefused("flange-narrow", 16.0, 22, "mm", "Make it wider", Change("mold.flange", "22 mm"))
    job = LongJob(JOB, WorkKind.PLAN, "Otter", piece, {}, 1, WorkState.REFUSED, 1, 2, why.as_kept())
    work.files.write(job)
    page = client.get(f"/pieces/{piece}").text
    assert "Flange round the base: 22 mm, and plan anew" in page
    assert "moldwright " not in page.partition("typed-line")[0]
    assert client.post(f"/api/pieces/{piece}/mend", json={}).status_code == 200
    (body,) = [e.body for e in shop.events_of(piece) if hasattr(e.body, "why")]
    assert 'flange = "22 mm"  # as ever' in body.commission
    assert last_plan_work(work, piece) != job


def test_what_was_refused_for_no_value_is_not_mended(client: TestClient) -> None:
    insides: Insides = app_of(client).state.insides
    piece = take_in(insides.own.shop, BenchClock("test"), '[original]\ndisplaced = "1.9 l"\n', {}, "Leaf")
    answer = client.post(f"/api/pieces/{piece}/mend", json={"value": "12 mm"})
    assert answer.json()["error"]["code"] == "nothing-to-mend"
