"""The service worker at the root of the site, so that it may answer for the bench's pages."""

from __future__ import annotations

import json

from fastapi import APIRouter
from starlette.responses import Response

from moldwright.web.assets import BUILT
from moldwright.web.doors.needs import needs
from moldwright.web.doors.visitor import Role

router = APIRouter()
FILE, MANIFEST = BUILT / "worker.js", BUILT / "manifest.json"


@router.get("/worker.js", dependencies=[needs(Role.VIEW)], include_in_schema=False)
def worker() -> Response:
    """Other scripts make another worker: a browser takes it for new by its first line."""
    if not FILE.is_file():
        return Response(status_code=404)
    made_from = json.loads(MANIFEST.read_text(encoding="utf-8")).get("made_from", "")
    text = f"self.MADE_FROM = {json.dumps(made_from)};\n{FILE.read_text(encoding='utf-8')}"
    return Response(text, media_type="text/javascript", headers={"Cache-Control": "no-cache"})
