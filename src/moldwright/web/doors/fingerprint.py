"""A certificate's fingerprint, for people to compare: in words, and as a device itself shows it."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives.hashes import SHA256

WORDS = Path(__file__).with_name("fingerprint_words.txt")
COMPARED_BYTES = 12
"""12 words of 8 bits: nobody finds a second certificate with the same (2^96 tries)."""


@cache
def fingerprint_words() -> tuple[str, ...]:
    """256 words, one for each byte."""
    return tuple(WORDS.read_text(encoding="utf-8").split())


def in_words(certificate: x509.Certificate) -> str:
    """The first bytes of the SHA-256 of a certificate, each as a word.

    Parameters
    ----------
    certificate : any.
    """
    return " ".join(fingerprint_words()[byte] for byte in certificate.fingerprint(SHA256())[:COMPARED_BYTES])


def in_figures(certificate: x509.Certificate) -> str:
    """All of it, two figures a byte, as devices show it.

    Parameters
    ----------
    certificate : any.
    """
    return certificate.fingerprint(SHA256()).hex(":").upper()
