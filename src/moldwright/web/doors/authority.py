"""A certificate authority of this machine alone, and the certificate by which its desk answers HTTPS.

A tablet that takes the authority in trusts it for names and addresses of local networks and for nothing else: it cannot
vouch for any other site. Source: RFC 5280, 4.2.1 (extensions; 4.2.1.10: name constraints), RFC 9525 (names in
subjectAltName), RFC 1918, RFC 4193, RFC 3927, RFC 4291 (local addresses), RFC 6762 (.local), RFC 8375 (home.arpa).
397 days: so long common browsers take a server's certificate at most (from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from ipaddress import ip_network

from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from moldwright.web.doors.calls import address_of

AUTHORITY_LASTS, SERVER_LASTS = timedelta(days=3650), timedelta(days=397)
RENEWED_BEFORE = timedelta(days=60)
CLOCKS_DIFFER = timedelta(days=1)
LOCAL_NAMES = ("local", "localhost", "lan", "internal", "home.arpa")
LOCAL_NETWORKS = (
    "10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "127.0.0.0/8",
    "fc00::/7", "fe80::/10", "::1/128",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Signed:
    """A certificate and its key."""

    certificate: x509.Certificate
    key: ec.EllipticCurvePrivateKey


def make_authority(machine: str, names: Sequence[str], now: datetime) -> Signed:
    """A new authority.

    Parameters
    ----------
    machine : the machine's name, by which a tablet lists it.
    names : names and addresses that it may vouch for beside the local ones.
    now : the time.
    """
    key = ec.generate_private_key(ec.SECP256R1())
    called = _called(f"Moldwright desk on {machine}, {now:%Y-%m-%d}")
    allowed = [_constraint(each) for each in (*LOCAL_NAMES, *names)]
    allowed += [x509.IPAddress(ip_network(each)) for each in LOCAL_NETWORKS]
    usage = _usage(key_cert_sign=True, crl_sign=True)
    made = (
        _begun(called, called, key, now, AUTHORITY_LASTS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(usage, critical=True)
        .add_extension(x509.NameConstraints(list(dict.fromkeys(allowed)), None), critical=True)
        .sign(key, SHA256())
    )
    return Signed(made, key)


def make_server(authority: Signed, names: Sequence[str], now: datetime) -> Signed:
    """A new certificate of the desk.

    Parameters
    ----------
    authority : that vouches for it.
    names : names and addresses by which browsers call it.
    now : the time.
    """
    key = ec.generate_private_key(ec.SECP256R1())
    issuer = authority.certificate.subject
    by = x509.AuthorityKeyIdentifier.from_issuer_public_key(authority.key.public_key())
    made = (
        _begun(_called("Moldwright desk"), issuer, key, now, SERVER_LASTS)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(digital_signature=True), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectAlternativeName([_name(each) for each in names]), critical=False)
        .add_extension(by, critical=False)
        .sign(authority.key, SHA256())
    )
    return Signed(made, key)


def vouches_for(authority: x509.Certificate, name: str) -> bool:
    """Whether an authority may vouch for a name or an address.

    Parameters
    ----------
    authority : its certificate.
    name : as a browser calls it.
    """
    told = authority.extensions.get_extension_for_class(x509.NameConstraints).value.permitted_subtrees or []
    address = address_of(name)
    if address is not None:
        networks = (ip_network(str(each.value)) for each in told if isinstance(each, x509.IPAddress))
        return any(address in network for network in networks)
    allowed = [each.value for each in told if isinstance(each, x509.DNSName)]
    return any(name == each or name.endswith(f".{each}") for each in allowed)


def names_in(certificate: x509.Certificate) -> set[str]:
    """The names and addresses that a certificate is for.

    Parameters
    ----------
    certificate : of a desk.
    """
    found = certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    names = {str(each.value) for each in found if isinstance(each, x509.DNSName)}
    return names | {str(each.value) for each in found if isinstance(each, x509.IPAddress)}


def plain(name: str) -> str:
    """A name or an address as certificates write it.

    Parameters
    ----------
    name : as a browser calls it.
    """
    address = address_of(name)
    return name if address is None else str(address)


def _begun(
    subject: x509.Name, issuer: x509.Name, key: ec.EllipticCurvePrivateKey, now: datetime, lasts: timedelta
) -> x509.CertificateBuilder:
    begins = now.astimezone(UTC) - CLOCKS_DIFFER
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(begins)
        .not_valid_after(begins + lasts)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
    )


def _called(name: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, name[:64])])


def _name(name: str) -> x509.GeneralName:
    address = address_of(name)
    return x509.DNSName(name) if address is None else x509.IPAddress(address)


def _constraint(name: str) -> x509.GeneralName:
    address = address_of(name)
    return x509.DNSName(name) if address is None else x509.IPAddress(ip_network(str(address)))


def _usage(digital_signature: bool = False, key_cert_sign: bool = False, crl_sign: bool = False) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=digital_signature,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        key_cert_sign=key_cert_sign,
        crl_sign=crl_sign,
        encipher_only=False,
        decipher_only=False,
    )
