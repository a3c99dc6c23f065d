"""HTTPS by an authority of the machine's own: what it may vouch for, when it is made anew, how it is told.

Judged from outside by OpenSSL (a handshake by Python's ssl, with its own name checking) and by the verifier of the
`cryptography` package; rules: RFC 5280, 4.2.1.3, 4.2.1.9, 4.2.1.10, RFC 9525; the fingerprint by hashlib (FIPS 180-4).
"""

from __future__ import annotations

import hashlib
import socket
import ssl
import stat
import threading
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.asymmetric.ec import EllipticCurvePrivateKey
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat
from fastapi.testclient import TestClient
from tests.at_desk import settings_in

from moldwright.errors import InputRefused
from moldwright.web.app import create_app
from moldwright.web.doors.authority import make_authority, make_server, vouches_for
from moldwright.web.doors.fingerprint import fingerprint_words, in_figures, in_words
from moldwright.web.doors.https import TlsFiles, authority_certificate, tls_files
from moldwright.web.serve import listening_at
from moldwright.web.settings import LOOPBACK, Settings

NAMES = ("127.0.0.1", "localhost", "[::1]", "192.168.7.20", "bench", "bench.local")
DAY = timedelta(days=1)


@pytest.fixture
def now() -> datetime:
    return datetime.now(UTC)


def shake_hands(files: TlsFiles, authority: x509.Certificate, name: str) -> None:
    """A client that trusts this authority alone calls a server by a name."""
    server = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    server.load_cert_chain(files.certificate, files.key)
    client = ssl.create_default_context(cadata=authority.public_bytes(Encoding.PEM).decode())
    here, there = socket.socketpair()

    def answering() -> None:
        try:
            server.wrap_socket(there, server_side=True).close()
        except (ssl.SSLError, OSError):
            there.close()

    thread = threading.Thread(target=answering)
    thread.start()
    try:
        client.wrap_socket(here, server_hostname=name).close()
    finally:
        here.close()
        thread.join(10)


def kept_authority(data: Path) -> x509.Certificate:
    found = authority_certificate(data)
    assert found is not None
    return found


@pytest.mark.parametrize("name", ["127.0.0.1", "localhost", "::1", "192.168.7.20", "bench", "bench.local"])
def test_a_browser_that_takes_the_authority_in_trusts_every_name_of_the_desk(
    tmp_path: Path, now: datetime, name: str
) -> None:
    shake_hands(tls_files(tmp_path, NAMES, now), kept_authority(tmp_path), name)


def test_it_is_trusted_by_nobody_else_and_for_no_other_name(tmp_path: Path, now: datetime) -> None:
    files = tls_files(tmp_path / "one", NAMES, now)
    tls_files(tmp_path / "other", NAMES, now)
    with pytest.raises(ssl.SSLCertVerificationError):
        shake_hands(files, kept_authority(tmp_path / "other"), "localhost")
    with pytest.raises(ssl.SSLCertVerificationError):
        shake_hands(files, kept_authority(tmp_path / "one"), "elsewhere.local")


@pytest.mark.parametrize("name", ["bank.example", "192.0.2.7", "2001:db8::7", "notlocal"])
def test_whoever_steals_its_key_cannot_vouch_for_a_site_on_the_internet(
    tmp_path: Path, now: datetime, name: str
) -> None:
    """A certificate is made for it all the same, and refused by who checks (RFC 5280, 4.2.1.10)."""
    authority = make_authority("bench", ["bench"], now)
    stolen = make_server(authority, [name], now)
    path = tmp_path / "stolen.pem"
    path.write_bytes(pem_of(stolen.key) + stolen.certificate.public_bytes(Encoding.PEM))
    with pytest.raises(ssl.SSLCertVerificationError, match="permitted subtree"):
        shake_hands(TlsFiles(path, path), authority.certificate, name)
    assert not vouches_for(authority.certificate, name)


def pem_of(key: EllipticCurvePrivateKey) -> bytes:
    return key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())


def test_keys_are_for_their_user_alone(tmp_path: Path, now: datetime) -> None:
    files = tls_files(tmp_path, NAMES, now)
    for path in (files.key, tmp_path / "doors" / "authority.pem"):
        assert stat.S_IMODE(path.stat().st_mode) == 0o600
        assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700


def test_a_certificate_is_kept_while_it_is_good_and_made_anew_before_it_ends(tmp_path: Path, now: datetime) -> None:
    """397 days from a day before it was made; anew in the last 60."""
    files = tls_files(tmp_path, NAMES, now)
    first, authority = files.certificate.read_bytes(), kept_authority(tmp_path)
    tls_files(tmp_path, NAMES[:3], now + 335 * DAY)
    assert files.certificate.read_bytes() == first
    tls_files(tmp_path, NAMES, now + 337 * DAY)
    assert files.certificate.read_bytes() != first
    assert kept_authority(tmp_path) == authority
    told = x509.load_pem_x509_certificate(first)
    assert (told.not_valid_after_utc - told.not_valid_before_utc).days == 397


def test_another_name_gets_into_the_certificate_and_a_foreign_one_is_refused(tmp_path: Path, now: datetime) -> None:
    files = tls_files(tmp_path, NAMES, now)
    authority = kept_authority(tmp_path)
    tls_files(tmp_path, (*NAMES, "10.1.2.3", "desk.home.arpa"), now)
    shake_hands(files, authority, "10.1.2.3")
    shake_hands(files, authority, "desk.home.arpa")
    with pytest.raises(InputRefused, match="name-not-vouched"):
        tls_files(tmp_path, (*NAMES, "shop.example"), now)
    tls_files(tmp_path / "new", (*NAMES, "shop.example"), now)
    shake_hands(tls_files(tmp_path / "new", NAMES, now), kept_authority(tmp_path / "new"), "shop.example")


def test_a_damaged_file_is_refused_and_not_taken_for_none(tmp_path: Path, now: datetime) -> None:
    files = tls_files(tmp_path, NAMES, now)
    files.certificate.write_text("nonsense")
    with pytest.raises(InputRefused, match="certificate-damaged"):
        tls_files(tmp_path, NAMES, now)


def test_the_fingerprint_is_that_which_a_tablet_shows_and_its_words_are_its_bytes(
    tmp_path: Path, now: datetime
) -> None:
    tls_files(tmp_path, NAMES, now)
    authority = kept_authority(tmp_path)
    digest = hashlib.sha256(authority.public_bytes(Encoding.DER)).digest()
    assert in_figures(authority).replace(":", "").lower() == digest.hex()
    words = fingerprint_words()
    assert [words.index(each) for each in in_words(authority).split()] == list(digest[:12])
    assert len(set(words)) == 256
    assert len({word[:4] for word in words}) == 256, "the first four letters tell them apart"


def test_the_page_of_trust_and_the_certificate_are_open_and_the_key_is_not(tmp_path: Path, now: datetime) -> None:
    base = settings_in(tmp_path)
    settings = Settings(base.shop, None, base.data, lan=True, hosts=(*LOOPBACK, "bench.local"), secure=True)
    tls_files(settings.data, settings.hosts, now)
    authority = kept_authority(settings.data)
    app = create_app(settings)
    with TestClient(
        app, base_url="https://bench.local:8477", client=("192.0.2.7", 1), follow_redirects=False
    ) as client:
        page = client.get("/door/trust").text
        assert in_words(authority) in page
        told = client.get("/api/door/authority")
        assert told.content == authority.public_bytes(Encoding.DER)
        assert told.headers["content-type"] == "application/x-x509-ca-cert"
        for path in ("/desk/doors/authority.pem", "/doors/authority.pem", "/built/../doors/authority.pem"):
            assert b"PRIVATE" not in client.get(path).content


def test_a_desk_without_a_certificate_says_so(tmp_path: Path) -> None:
    with TestClient(create_app(settings_in(tmp_path)), base_url="http://localhost:8477") as client:
        assert "has no certificate" in client.get("/door/trust").text
        assert client.get("/api/door/authority").status_code == 404


def test_a_port_that_is_taken_is_told() -> None:
    first = listening_at(("127.0.0.1",), 0)
    port = first[0].getsockname()[1]
    first[0].listen()
    try:
        with pytest.raises(InputRefused, match="port-taken"):
            listening_at(("127.0.0.1", "::"), port)
    finally:
        first[0].close()
