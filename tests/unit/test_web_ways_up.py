"""Which way of a scan is up, as the page of taking in asks it."""

from __future__ import annotations

import html
from collections.abc import Iterator
from pathlib import Path

import manifold3d as m3
import pytest
from at_desk import app_of, at_desk, settings_in
from fastapi.testclient import TestClient
from taking_in import begun, checked, over, sent

from moldwright.geometry.solid import mesh_of
from moldwright.records.pieces.listing import pieces
from moldwright.sheets.model_files import stl_bytes
from moldwright.web.inside import Insides


@pytest.fixture
def client(tmp_path: Path) -> Iterator[TestClient]:
    with at_desk(settings_in(tmp_path)) as found:
        yield found


@pytest.mark.parametrize(("tilt_deg", "named"), [(0.0, "+z"), (30.0, "[0, 0.5, -0.866]")])
def test_every_way_up_that_is_offered_is_taken_as_it_is_offered(
    client: TestClient, tilt_deg: float, named: str
) -> None:
    """A cube stands as well on each of its sides; tilted, most of its ways are no axis of the scan."""
    draft, cube = begun(client), m3.Manifold.cube((40.0, 40.0, 40.0)).rotate((tilt_deg, 0.0, 0.0))
    sent(client, draft, stl_bytes(mesh_of(cube)))
    answers = {"original.file": "figure.stl", "original.unit": "mm"}
    checked(client, draft, answers, way="scan")
    asked = over(client, client.post(f"/api/take-in/{draft}/look").json()["id"])["result"]
    assert asked["asked"]["code"] == "up-unclear"
    offered = [way["up"] for way in asked["ways"]]
    assert len(offered) == 6
    assert named in offered
    page = html.unescape(client.get(f"/take-in/{draft}/looked").text)
    assert all(f'data-set="original.up" data-value="{up}"' in page for up in offered)
    for up in (offered[0], named):
        answers |= {"original.up": up}
        told = checked(client, draft, answers)
        assert told["ready"], told
        seen = over(client, client.post(f"/api/take-in/{draft}/look").json()["id"])
        assert (seen["state"], seen["error"]) == ("done", None)
    checked(client, draft, {**answers, "original.name": "Cube", "edition.count": "2"})
    made = client.post(f"/api/take-in/{draft}/piece").json()
    insides: Insides = app_of(client).state.insides
    assert [known.piece.id for known in pieces(insides.own.shop)] == [made["piece"]]
