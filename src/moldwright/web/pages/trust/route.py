"""Trust."""

from __future__ import annotations

from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding
from cryptography.x509.oid import NameOID
from fastapi import APIRouter, Request
from starlette.responses import Response

from moldwright.errors import InputRefused
from moldwright.web.at_hand import OfDesk
from moldwright.web.doors.fingerprint import in_figures, in_words
from moldwright.web.doors.https import authority_certificate
from moldwright.web.doors.needs import open_to_all
from moldwright.web.page import Page
from moldwright.web.render import page
from moldwright.web.settings import Settings

router = APIRouter(dependencies=[open_to_all()])
PAGE = Page(router)
MEDIA_TYPE = "application/x-x509-ca-cert"
"""By which devices know what is to be done with it (in use for long, registered nowhere)."""


@router.get("/door/trust", include_in_schema=False)
def trust(request: Request, settings: OfDesk) -> Response:
    """The steps, and by what one knows that it is the right one."""
    found = _certificate(settings)
    if found is None:
        return page(request, "trust", {"words": ""})
    name = found.subject.get_attributes_for_oid(NameOID.COMMON_NAME)[0].value
    return page(request, "trust", {"words": in_words(found), "figures": in_figures(found), "called": name})


@router.get("/api/door/authority", response_class=Response)
def authority(settings: OfDesk) -> Response:
    """The authority's certificate; its key never leaves the machine."""
    found = _certificate(settings)
    if found is None:
        remedy = "It has one when it is started with `moldwright desk --lan --https`."
        raise InputRefused("page-missing", "no certificate on this desk", "one", "", remedy)
    data = found.public_bytes(Encoding.DER)
    named = 'attachment; filename="moldwright-desk.crt"'
    return Response(data, media_type=MEDIA_TYPE, headers={"Content-Disposition": named, "Cache-Control": "no-store"})


def _certificate(settings: Settings) -> x509.Certificate | None:
    return authority_certificate(settings.data) if settings.secure else None
