"""An invitation as it is shown: a code to type, an address to open, both as a square to scan."""

from __future__ import annotations

from pydantic import BaseModel
from starlette.requests import Request

from moldwright.errors import InputRefused
from moldwright.sheets.qr import qr_code
from moldwright.web.doors.calls import address_of, host_name, port_of
from moldwright.web.doors.doors import Doors
from moldwright.web.doors.machine import machine_addresses
from moldwright.web.doors.visitor import Role
from moldwright.web.settings import LOOPBACK, Settings


class Invited(BaseModel):
    """A device that was invited. `qr`: a path of squares of side 1, `across` of them and four light ones all round."""

    code: str
    address: str
    ends_ms: int
    across: int
    qr: str


def invited(request: Request, settings: Settings, doors: Doors, role: Role, device: str) -> Invited:
    """Invite a device.

    Parameters
    ----------
    request : the owner's call.
    settings, doors : of the desk.
    role, device : what it will be allowed to do, and its name.

    Raises InputRefused ("desk-alone", "passphrase-missing", "address-missing").
    """
    _refuse_alone(settings, doors)
    site = far_site(request, settings)
    code, ends_ms = doors.invitations.make(role, device)
    address = f"{site}/door#{code}"
    drawn = qr_code(address)
    squares = "".join(
        f"M{column} {row}h1v1h-1z" for row, cells in enumerate(drawn.cells) for column, dark in enumerate(cells) if dark
    )
    return Invited(code=code, address=address, ends_ms=ends_ms, across=drawn.across, qr=squares)


def far_site(request: Request, settings: Settings) -> str:
    """The address by which another device reaches this desk.

    Parameters
    ----------
    request : any call.
    settings : of the desk.

    Raises InputRefused ("address-missing").
    """
    name, port, own = host_name(request), port_of(request), machine_addresses()
    told = (each for each in settings.hosts if each not in LOOPBACK)
    usual = [*(each for each in told if address_of(each) is None or each in own), *own]
    host = name if name not in LOOPBACK else next(iter(usual), "")
    if not host:
        remedy = "Connect this machine to the shop's network, then do it again."
        raise InputRefused("address-missing", "no address in a network", "one", "", remedy)
    return f"{'https' if settings.secure else 'http'}://{host}{f':{port}' if port else ''}"


def _refuse_alone(settings: Settings, doors: Doors) -> None:
    if not settings.lan:
        remedy = "Close it and start it with `moldwright desk --lan`."
        raise InputRefused("desk-alone", "a desk that answers this machine alone", "one open to others", "", remedy)
    if not doors.passphrase.is_set:
        remedy = "Set the passphrase first, on this page."
        raise InputRefused("passphrase-missing", "no passphrase", "one", "", remedy)
