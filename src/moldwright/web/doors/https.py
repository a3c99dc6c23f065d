"""What the desk needs to answer HTTPS, kept in its private folder and made anew before it ends."""

from __future__ import annotations

import socket
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    NoEncryption,
    PrivateFormat,
    load_pem_private_key,
)

from moldwright.errors import InputRefused
from moldwright.web.doors.authority import (
    RENEWED_BEFORE,
    SERVER_LASTS,
    Signed,
    make_authority,
    make_server,
    names_in,
    plain,
    vouches_for,
)
from moldwright.web.doors.file import FOLDER, private_folder, write_private

AUTHORITY, SERVER = "authority", "desk"


@dataclass(frozen=True, slots=True)
class TlsFiles:
    """Where certificate and key of the desk lie."""

    certificate: Path
    key: Path


def tls_files(data: Path, names: Sequence[str], now: datetime) -> TlsFiles:
    """Certificate and key for these names, made where they are missing, end soon, or lack one of the names.

    Parameters
    ----------
    data : the desk's data folder.
    names : names and addresses by which browsers call it.
    now : the time.

    Raises InputRefused ("name-not-vouched", "certificate-damaged").
    """
    folder = private_folder(data)
    authority = _authority(folder, names, now)
    for name in names:
        if not vouches_for(authority.certificate, plain(name)):
            remedy = (
                f"Tablets trust this desk for other names. To take this one in, remove {folder / AUTHORITY}.pem: "
                "a new authority is made, and every tablet takes it in again."
            )
            raise InputRefused("name-not-vouched", name, "a name of a local network", "", remedy)
    _server(folder, authority, names, now)
    return TlsFiles(folder / f"{SERVER}.pem", folder / f"{SERVER}.pem")


def authority_certificate(data: Path) -> x509.Certificate | None:
    """What a tablet takes in; None where there is none.

    Parameters
    ----------
    data : the desk's data folder.
    """
    found = _kept(data / FOLDER, AUTHORITY)
    return found.certificate if found else None


def _authority(folder: Path, names: Sequence[str], now: datetime) -> Signed:
    found = _kept(folder, AUTHORITY)
    if found is None or found.certificate.not_valid_after_utc - now < SERVER_LASTS:
        found = make_authority(socket.gethostname(), [plain(each) for each in names], now)
        _keep(folder, AUTHORITY, found)
    return found


def _server(folder: Path, authority: Signed, names: Sequence[str], now: datetime) -> None:
    found, wanted = _kept(folder, SERVER), [plain(each) for each in names]
    sound = (
        found is not None
        and found.certificate.not_valid_after_utc - now > RENEWED_BEFORE
        and set(wanted) <= names_in(found.certificate)
        and found.certificate.issuer == authority.certificate.subject
        and _signed_by(found.certificate, authority.certificate)
    )
    if not sound:
        _keep(folder, SERVER, make_server(authority, wanted, now))


def _signed_by(one: x509.Certificate, authority: x509.Certificate) -> bool:
    try:
        one.verify_directly_issued_by(authority)
    except Exception:
        return False
    return True


def _keep(folder: Path, name: str, signed: Signed) -> None:
    """Key and certificate in one file: they are made and lost together."""
    key = signed.key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
    write_private(folder / f"{name}.pem", key + signed.certificate.public_bytes(Encoding.PEM))


def _kept(folder: Path, name: str) -> Signed | None:
    path = folder / f"{name}.pem"
    try:
        text = path.read_bytes()
        key = load_pem_private_key(text, None)
        certificate = x509.load_pem_x509_certificate(text)
    except FileNotFoundError:
        return None
    except (ValueError, TypeError):
        key, certificate = None, None
    if not isinstance(key, ec.EllipticCurvePrivateKey) or certificate is None:
        remedy = "Remove this file: it is made anew. If it is the authority's, tablets take the new one in."
        raise InputRefused("certificate-damaged", str(path), "a certificate of this desk", "", remedy)
    return Signed(certificate, key)


def utc_now() -> datetime:
    """The time."""
    return datetime.now(UTC)
