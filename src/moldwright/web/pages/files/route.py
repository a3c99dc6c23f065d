"""Kept files of the records: photos, certificates, safety data sheets."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query, Request
from pydantic import BaseModel
from starlette.concurrency import run_in_threadpool
from starlette.responses import Response

from moldwright.log.ids import FileHash
from moldwright.records.files.keep import keep_file
from moldwright.records.files.kinds import LARGEST_OF_ALL
from moldwright.web.at_hand import OpenShop, Told
from moldwright.web.doors.files import kept_answer
from moldwright.web.doors.needs import needs
from moldwright.web.doors.uploads import receiving
from moldwright.web.doors.visitor import Role
from moldwright.web.page import Page
from moldwright.web.pages.files import laid_to

router = APIRouter()
router.include_router(laid_to.router)
PAGE = Page(router)
Name = Annotated[str, Query(max_length=400, description="What people call it; it decides nothing.")]


class KeptFile(BaseModel):
    """A file that was taken in."""

    file: str


@router.get("/files/{file}", dependencies=[needs(Role.VIEW)], include_in_schema=False)
def kept_file(file: str, shop: OpenShop, name: Name = "") -> Response:
    """A kept file by its hash."""
    return kept_answer(shop, FileHash(file), name)


@router.put("/api/files", dependencies=[needs(Role.BENCH)])
async def take_file(request: Request, shop: OpenShop, settings: Told, name: Name = "") -> KeptFile:
    """Keep a photo (JPEG, PNG, HEIC), a PDF or a text: the body is its bytes. What it is, its bytes tell."""
    async with receiving(request, settings.data, LARGEST_OF_ALL) as place:
        return KeptFile(file=await run_in_threadpool(keep_file, shop, place, name or "file"))
