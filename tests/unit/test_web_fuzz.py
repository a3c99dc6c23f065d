"""The desk's API as its own description tells it, called with what it allows and what it does not: no server error.

By schemathesis, a general tester of described APIs, in-process. Each call comes from a living session of the owner's:
one that signs out or ends sessions spoils no other. Bounded here; many more under `slow`.
"""

from __future__ import annotations

import warnings
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient
from hypothesis import HealthCheck, Phase, given, settings
from tests.at_desk import HERE, settings_in

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import schemathesis
    from schemathesis import GenerationMode

from moldwright.web.app import create_app
from moldwright.web.doors.doors import Doors
from moldwright.web.doors.secrets import token_of
from moldwright.web.doors.state import CameBy
from moldwright.web.doors.visitor import Role

FEW, MANY = 4, 300
FROM_ELSEWHERE = {"content-length", "host", "transfer-encoding", "cookie", "x-token", "origin"}


def tried(folder: Path, examples: int) -> int:
    """Call every operation with so many examples, half of them against its description; tells how many calls."""
    desk = settings_in(folder)
    doors = Doors(desk.data)
    app = create_app(desk, doors)
    calls, owner = 0, Owner(doors)
    with TestClient(app, base_url=HERE, raise_server_exceptions=False) as client:
        described = schemathesis.openapi.from_dict(client.get("/api/openapi.json").json())
        described.config.generation.update(modes=[GenerationMode.POSITIVE, GenerationMode.NEGATIVE])
        for found in described.get_all_operations():
            operation = found.ok()
            limits = settings(
                max_examples=examples, deadline=None, database=None, derandomize=True, phases=[Phase.generate],
                suppress_health_check=list(HealthCheck),
            )  # fmt: skip

            def calling(case: Any) -> None:
                nonlocal calls
                calls += 1
                answer = called(client, owner.secret(), case)
                assert answer < 500, (case.method, case.formatted_path, case.query, case.body, answer)

            limits(given(case=operation.as_strategy())(calling))()
    return calls


class Owner:
    """The owner, who comes in anew as soon as a call has ended their session."""

    def __init__(self, doors: Doors) -> None:
        self._doors = doors
        self._secret = ""

    def secret(self) -> str:
        """Of a session that has not ended."""
        if self._doors.sessions.of(self._secret) is None:
            self._secret = self._doors.sessions.begin(Role.OWNER, "laptop", CameBy.PASSPHRASE)
        return self._secret


def called(client: TestClient, secret: str, case: Any) -> int:
    """The status of one call of a session."""
    told = case.as_transport_kwargs(base_url=HERE)
    own = {"cookie": f"session-8477={secret}", "x-token": token_of(secret)}
    more = {name: value for name, value in (told.get("headers") or {}).items() if name.lower() not in FROM_ELSEWHERE}
    headers = [(plain(name), plain(str(value))) for name, value in (more | own).items()]
    body = {"json": told["json"]} if "json" in told else {"content": content_of(told.get("data"))}
    answer = client.request(told["method"], told["url"], params=told.get("params"), headers=headers, **body)
    return answer.status_code


def plain(text: str) -> bytes:
    """As a header carries it."""
    return text.encode("latin-1", "replace")


def content_of(data: Any) -> bytes:
    """A body that is no JSON, as bytes."""
    return data if isinstance(data, bytes) else str(data or "").encode(errors="replace")


def test_what_is_described_breaks_nothing(tmp_path: Path) -> None:
    assert tried(tmp_path, FEW) > 50


@pytest.mark.slow
def test_what_is_described_breaks_nothing_however_often_it_is_tried(tmp_path: Path) -> None:
    assert tried(tmp_path, MANY) > 2000
