"""The page of a piece's mold, and what its element asks for, on a small real plan."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from conftest import Job
from fastapi.testclient import TestClient
from screen_plans import NAME, piece_in, plan_in

from moldwright.log.codes import short_code
from moldwright.log.ids import PlanId
from moldwright.making.files.strain_file import STRAIN
from moldwright.making.plan_folders import plan_home
from moldwright.making.screen.packed_parts import ScreenMold, mold_of_bytes
from moldwright.web.app import create_app
from moldwright.web.settings import Settings


@pytest.fixture(scope="module")
def data(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("desk")


@pytest.fixture(scope="module")
def plan(data: Path, small_job: Job) -> PlanId:
    return plan_in(data, small_job)


@pytest.fixture(scope="module")
def client(data: Path) -> Iterator[TestClient]:
    with TestClient(create_app(Settings(str(data / "shop.db"), None, data)), base_url="http://localhost:8477") as found:
        yield found


@pytest.fixture(scope="module")
def piece(client: TestClient, small_job: Job) -> str:
    return piece_in(client.app.state.shop, small_job)  # type: ignore[attr-defined]


@pytest.fixture(scope="module")
def solids(client: TestClient, plan: PlanId) -> ScreenMold:
    told = client.get(f"/api/plans/{plan}/mold").json()
    return mold_of_bytes(client.get(told["solids"]).content)


def test_the_page_is_useful_without_a_script(client: TestClient, plan: PlanId, piece: str) -> None:
    for written in (piece, short_code(piece)):
        text = client.get(f"/pieces/{written}/mold").text
        assert NAME in text
        assert f'data-plan="/api/plans/{plan}/mold"' in text
        assert "draws" in text.partition("As a table")[2]


def test_solids_are_told_in_words_and_sent_once(client: TestClient, plan: PlanId) -> None:
    told = client.get(f"/api/plans/{plan}/mold").json()
    kinds = [part["kind"] for part in told["parts"]]
    assert kinds == ["original", "mount", "coat", "coat", "coat", "rubber", "shell", "shell"]
    assert [each["name"] for each in told["quantities"]] == [
        "thickness",
        "packed",
        "undercut",
        "hold",
        "stretch",
        "strain",
        "seam",
    ]
    answer = client.get(told["solids"])
    assert answer.headers["content-encoding"] == "gzip"
    assert "immutable" in answer.headers["cache-control"]
    again = client.get(told["solids"], headers={"If-None-Match": answer.headers["etag"]})
    assert (again.status_code, again.content) == (304, b"")


def test_coats_lie_one_in_the_other(solids: ScreenMold, small_job: Job) -> None:
    """Each coat's rubber is what its solid has more than the one beneath: the plan tells it, reckoned otherwise. The
    last has the flange; the grid here is another than the plan's, hence some per cent."""
    volumes = [volume_ml(solids, each) for each in ("coat-1", "coat-2")]
    coats = small_job.planned.plan.glove.coats
    assert volumes[1] - volumes[0] == pytest.approx(coats[1].volume_ml, rel=0.05)


def test_what_the_coats_have_is_as_thick_as_ordered(solids: ScreenMold) -> None:
    rubber = solids.part("rubber")
    assert rubber is not None
    thick = rubber.quantities["thickness"]
    assert np.nanmedian(thick) == pytest.approx(4.0, abs=0.05)
    assert np.isnan(thick[rubber.vertices[:, 2] < 1e-4]).all()


def test_the_screen_strains_the_rubber_as_the_plan_does(solids: ScreenMold, small_job: Job) -> None:
    """Each corner over the flange has what the plan's own sheet has at its nearest place, looked for one by one; the
    file tells thousandths of a millimeter and of a percent."""
    rubber = solids.part("rubber")
    assert rubber is not None
    sheet = np.array(small_job.planned.solids.strained.value.field)
    high = np.flatnonzero(rubber.vertices[:, 2] > 4.5)[::23]
    away = np.linalg.norm(rubber.vertices[high, None] - sheet[None, :, :3], axis=2)
    told = rubber.quantities["strain"][high]
    plain = np.diff(np.sort(away, axis=1)[:, :2], axis=1)[:, 0] > 0.01
    assert plain.sum() > 50
    np.testing.assert_allclose(told[plain], 100.0 * (sheet[away.argmin(axis=1), 3] - 1.0)[plain], atol=5e-3)
    assert np.isnan(rubber.quantities["strain"][rubber.vertices[:, 2] < 3.9]).all()


def test_what_the_sheets_mark_and_say_is_told_beside_the_solids(
    client: TestClient, plan: PlanId, solids: ScreenMold, small_job: Job
) -> None:
    """The place of the most strain is the plan's own first one; what no sheet shows has neither mark nor word."""
    told = {each["name"]: each for each in client.get(f"/api/plans/{plan}/mold").json()["quantities"]}
    its, rubber = small_job.planned.plan.glove.strain, solids.part("rubber")
    assert its is not None
    assert rubber is not None
    (most,) = told["strain"]["ends"]
    first = its.places[0]
    assert most["told"].startswith(f"most {first.elongation_pct:.0f} %, right, back, up: ")
    away = np.linalg.norm(rubber.vertices - np.array(first.at), axis=1)
    assert away[most["corner"]] == pytest.approx(away.min())
    assert f"{first.elongation_pct:.0f} % (" in told["strain"]["at_bench"]
    assert [each["name"] for each in told["thickness"]["ends"]] == ["least", "most"]
    assert (told["seam"]["at_bench"], told["seam"]["ends"]) == ("", [])


def test_a_folder_older_than_the_file_of_strain_shows_its_solids(
    data: Path, small_job: Job, client: TestClient
) -> None:
    cooler = replace(small_job.planned, plan=replace(small_job.planned.plan, temperature_c=19.0))
    older = plan_in(data, small_job._replace(planned=cooler))
    (plan_home(data, older) / STRAIN).unlink()
    told = {each["name"]: each for each in client.get(f"/api/plans/{older}/mold").json()["quantities"]}
    assert "strain" not in told
    assert sum(told["thickness"]["legend"]["shares"]) == pytest.approx(1.0)


def test_a_place_reads_what_its_corner_has(client: TestClient, plan: PlanId, solids: ScreenMold) -> None:
    rubber = solids.part("rubber")
    assert rubber is not None
    corner = int(np.argmax(rubber.vertices[:, 2]))
    rows = dict(client.get(f"/api/plans/{plan}/place?part=rubber&corner={corner}").json()["rows"])
    assert rows["Over the board"] == f"{rubber.vertices[corner, 2]:.0f} mm"
    assert rows["Rubber here"].startswith(f"{rubber.quantities['thickness'][corner]:.1f}".removesuffix(".0"))
    assert rows["Under"].startswith("Shell")


def test_two_places_are_as_far_apart_as_their_corners(client: TestClient, plan: PlanId, solids: ScreenMold) -> None:
    one, other = solids.part("original"), solids.part("shell-1")
    assert one is not None
    assert other is not None
    path = f"/api/plans/{plan}/between?part=original&corner=0&other_part=shell-1&other_corner=5"
    rows = dict(client.get(path).json()["rows"])
    apart = math.dist(one.vertices[0], other.vertices[5])
    assert float(rows["Straight"].removesuffix(" mm")) == pytest.approx(apart, abs=0.5)


def test_inches_are_told_to_who_reads_them(client: TestClient, plan: PlanId) -> None:
    told = client.get(f"/api/plans/{plan}/mold", headers={"cookie": "units=us"}).json()
    assert told["quantities"][0]["legend"]["unit"] == "in"
    assert told["bars"]["told"][0] == "1/16 in"


@pytest.mark.parametrize(
    "path",
    [
        "/api/plans/..%2F..%2Fetc/mold",
        "/api/plans/nothing/mold",
        f"/api/plans/{'a' * 64}/mold",
        "/api/plans/{plan}/solids/0123456789abcdef",
        "/api/plans/{plan}/pictures/plan.json",
        "/api/plans/{plan}/place?part=nothing&corner=0",
        "/api/plans/{plan}/place?part=rubber&corner=99999999",
        "/api/plans/{plan}/place?part=rubber&corner=-1",
        "/api/plans/{plan}/place?part=rubber&corner=x",
    ],
)
def test_what_is_not_there_is_refused(client: TestClient, plan: PlanId, path: str) -> None:
    answer = client.get(path.replace("{plan}", plan))
    assert answer.status_code in (404, 422)
    assert answer.json()["error"]["remedy"]


def volume_ml(solids: ScreenMold, id_: str) -> float:
    part = solids.part(id_)
    assert part is not None
    a, b, c = part.vertices[part.faces].transpose(1, 0, 2)
    return float(np.einsum("ij,ij->", a, np.cross(b, c)) / 6000)


def test_two_plans_stand_beside_each_other(client: TestClient, data: Path, small_job: Job, plan: PlanId) -> None:
    warm = replace(small_job.planned, plan=replace(small_job.planned.plan, temperature_c=25.0))
    other = plan_in(data, small_job._replace(planned=warm))
    text = client.get(f"/compare/{plan}/{other}").text
    assert "22 °C" in text.partition("All figures")[0]
    told = client.get(f"/api/compare?before={plan}&after={other}").json()
    assert [pair["after"] for pair in told["pairs"] if pair["changed"]] == ["25 °C"]
    assert client.get(f"/api/compare?before={plan}&after=../x").status_code == 404
    assert "Nothing changes" in client.get(f"/compare/{plan}/{plan}").text
