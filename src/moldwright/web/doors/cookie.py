"""The cookie of a session (draft-ietf-httpbis-rfc6265bis; attributes in its section 4.1.2, prefixes in 4.1.3)."""

from __future__ import annotations

from starlette.requests import Request

from moldwright.web.doors.calls import port_of
from moldwright.web.doors.state import LONGEST_MS
from moldwright.web.settings import Settings


def cookie_name(request: Request, settings: Settings) -> str:
    """Its name. Cookies know no ports (8.5): two desks of one machine have two names.

    Parameters
    ----------
    request : the call.
    settings : of the desk.
    """
    return f"{'__Host-' if settings.secure else ''}session-{port_of(request)}"


def cookie_text(name: str, secret: str, settings: Settings) -> str:
    """What `Set-Cookie` says: no script reads it, no other site has it sent, no other path or host gets it.

    Parameters
    ----------
    name : the cookie's.
    secret : of the session, "" for one that has ended.
    settings : of the desk.
    """
    lasts_s = LONGEST_MS // 1000 if secret else 0
    secure = "; Secure" if settings.secure else ""
    return f"{name}={secret}; Max-Age={lasts_s}; Path=/; HttpOnly; SameSite=Strict{secure}"
