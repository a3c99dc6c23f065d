"""A form that a browser sends by itself, where no script runs: small, and from a page of this very desk.

Source: URL Standard (WHATWG), 5 (application/x-www-form-urlencoded); RFC 6454, 7 (Origin).
"""

from __future__ import annotations

from collections.abc import Mapping
from urllib.parse import parse_qsl

from starlette.requests import Request

from moldwright.errors import InputRefused
from moldwright.web.doors.calls import own_site
from moldwright.web.settings import Settings

MOST_BYTES, MOST_FIELDS = 8000, 10
KIND = "application/x-www-form-urlencoded"


async def form_of(request: Request, settings: Settings) -> Mapping[str, str]:
    """The fields of a form.

    Whoever is not signed in yet has no token: that the form stood on a page of this desk is told by the browser, which
    lets no page of another site say so. An act that tells nothing of where it is from is refused here.

    Parameters
    ----------
    request : the call.
    settings : of the desk.

    Raises InputRefused ("other-site", "request-unclear").
    """
    site, origin = request.headers.get("sec-fetch-site", ""), request.headers.get("origin", "")
    if site != "same-origin" and origin.lower() != own_site(request, settings):
        told = origin or site or "nothing of where it is from"
        raise InputRefused("other-site", told, own_site(request, settings), "", "Act on the desk's own pages.")
    body = await request.body()
    if request.headers.get("content-type", "").partition(";")[0].strip().lower() != KIND or len(body) > MOST_BYTES:
        raise InputRefused("request-unclear", "no form", KIND, "", "Reload the page and try again.")
    try:
        return dict(parse_qsl(body.decode("ascii"), keep_blank_values=True, max_num_fields=MOST_FIELDS))
    except ValueError:
        raise InputRefused("request-unclear", "no form", KIND, "", "Reload the page and try again.") from None
