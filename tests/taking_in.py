"""Taking in at the desk, step by step, as its page asks for it."""

from __future__ import annotations

import time
from typing import Any

from fastapi.testclient import TestClient

WITHIN_S = 300.0


def begun(client: TestClient) -> str:
    answer = client.post("/api/take-in", json={"answers": {}, "beside": {"way": "scan"}})
    assert answer.status_code == 200
    return str(answer.json()["id"])


def sent(client: TestClient, draft: str, content: bytes, name: str = "figure.stl", what: str = "scan") -> Any:
    return client.put(f"/api/take-in/{draft}/{what}", params={"name": name}, content=content)


def checked(client: TestClient, draft: str, answers: dict[str, Any], **beside: Any) -> dict[str, Any]:
    answer = client.post(f"/api/take-in/{draft}/check", json={"answers": answers, "beside": beside})
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()
    return found


def over(client: TestClient, job: str) -> dict[str, Any]:
    end = time.monotonic() + WITHIN_S
    while not (told := client.get(f"/api/work/{job}").json())["over"]:
        assert time.monotonic() < end, told
        time.sleep(0.05)
    found: dict[str, Any] = told
    return found
