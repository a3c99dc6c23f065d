"""Where a call comes from: under which name, from which site, from which machine."""

from __future__ import annotations

from ipaddress import IPv4Address, IPv6Address, ip_address

from starlette.requests import Request

from moldwright.errors import InputRefused
from moldwright.web.settings import LOOPBACK, Settings

SAFE = ("GET", "HEAD", "OPTIONS")
"""Methods that change nothing (RFC 9110, 9.2.1)."""
OWN_SITE = ("", "same-origin", "none")
"""What `Sec-Fetch-Site` says of a call by our own page, by a user who typed the address, or by who says nothing
(Fetch Metadata Request Headers, W3C)."""
FORWARDED = ("forwarded", "x-forwarded-for", "x-real-ip")
"""What a go-between adds (RFC 7239, and what was usual before it): then the caller is not who it seems to be."""


def host_name(request: Request) -> str:
    """The name or address by which it is called, without the port, in small letters; "" where it is not one.

    Parameters
    ----------
    request : the call.
    """
    told = request.headers.getlist("host")
    if len(told) != 1:
        return ""
    host = told[0].strip().lower()
    name, colon, port = host.rpartition(":")
    return name if colon and port.isdecimal() and not name.endswith(":") else host


def port_of(request: Request) -> str:
    """The port by which it is called, "" for the scheme's own.

    Parameters
    ----------
    request : the call.
    """
    port = request.headers.get("host", "").rpartition(":")[2]
    return port if port.isdecimal() and port.isascii() else ""


def address_of(text: str) -> IPv4Address | IPv6Address | None:
    """An address, one of IPv4 that came by IPv6 as what it is; None for a name.

    Parameters
    ----------
    text : as a header or a socket tells it.
    """
    try:
        found = ip_address(text.strip("[]").partition("%")[0])
    except ValueError:
        return None
    return (found.ipv4_mapped or found) if isinstance(found, IPv6Address) else found


def from_here(request: Request, settings: Settings) -> bool:
    """Whether whoever calls sits at the machine itself. A desk that is not open to others listens to nobody else.

    Parameters
    ----------
    request : the call.
    settings : of the desk.
    """
    if not settings.lan:
        return True
    peer = address_of(request.client.host) if request.client else None
    told = any(name in request.headers for name in FORWARDED)
    return peer is not None and peer.is_loopback and host_name(request) in LOOPBACK and not told


def unknown_host(request: Request, settings: Settings) -> InputRefused | None:
    """A refusal where a call comes under a name that is not this desk's: a page elsewhere may let its name point here.

    Parameters
    ----------
    request : the call.
    settings : of the desk.
    """
    name = host_name(request)
    if name in settings.hosts or (settings.lan and _own_address(request, name)):
        return None
    remedy = "Open the address that the desk printed when it started."
    return InputRefused("host-unknown", name, ", ".join(settings.hosts), "", remedy)


def _own_address(request: Request, name: str) -> bool:
    """An address is no name that could be turned: the one that the call arrived at is ours."""
    server = request.scope.get("server")
    told, own = address_of(name), address_of(server[0]) if server else None
    return told is not None and told == own


def other_site(request: Request, settings: Settings) -> InputRefused | None:
    """A refusal where a page of another site acts, or takes in what is ours.

    Parameters
    ----------
    request : the call.
    settings : of the desk.
    """
    site, mode = request.headers.get("sec-fetch-site", ""), request.headers.get("sec-fetch-mode", "")
    own = own_site(request, settings)
    origin = request.headers.get("origin", "").lower()
    if request.method in SAFE:
        wrong = "" if site in OWN_SITE or _led_here(request, site, mode) else site
    else:
        wrong = "" if site in OWN_SITE and origin in ("", own) else origin or site
    return InputRefused("other-site", wrong, own, "", "Act on the desk's own pages.") if wrong else None


def own_site(request: Request, settings: Settings) -> str:
    """The desk's own origin, by the name that it is called by.

    Parameters
    ----------
    request : the call.
    settings : of the desk.
    """
    return f"{'https' if settings.secure else 'http'}://{request.headers.get('host', '').strip().lower()}"


def led_here(request: Request) -> bool:
    """Whether a link on another site led here: such a call comes without the cookie of a session.

    Parameters
    ----------
    request : the call.
    """
    return _led_here(request, request.headers.get("sec-fetch-site", ""), request.headers.get("sec-fetch-mode", ""))


def _led_here(request: Request, site: str, mode: str) -> bool:
    whole = request.headers.get("sec-fetch-dest", "") == "document"
    return site not in OWN_SITE and request.method in ("GET", "HEAD") and mode == "navigate" and whole
