"""How an archive is laid out (docs/archive.md): its parts, their names, and how large they may be."""

from __future__ import annotations

import re

from moldwright.records.files.kinds import LARGEST, LARGEST_SCAN

FORMAT, VERSION = "moldwright-archive", 1
"""What it calls itself. Readers refuse a larger version; a new field of an old part is a new version too."""
ABOUT, SUMS = "archive.json", "SHA256SUMS"
EVENTS, PLANS, FILES = "events.jsonl", "plans.jsonl", "files.jsonl"
PLAN, FILE = "plans/{}.json", "files/{}"
LISTS = frozenset({EVENTS, FILES, PLANS})
FIXED = frozenset({ABOUT, EVENTS, FILES, PLANS, SUMS})
NAME = re.compile(r"plans/[0-9a-f]{64}\.json|files/[0-9a-f]{64}")
FIELDS = {
    EVENTS: ("id", "about", "subject", "kind", "at_ms", "at", "bench", "by", "body"),
    FILES: ("sha256", "bytes", "type", "name", "kept_ms"),
    PLANS: ("sha256", "bytes", "name", "kept_ms"),
}
BODY_TEXT = "body_text"
"""Stands for `body` where the text of it would not come back byte for byte from its object."""
README = (
    "The records of a mold maker's shop, all of them. Every line of events.jsonl is one thing that happened; none was "
    "ever changed. plans/ holds the plans that were worked by, files/ the photos and documents, each named by "
    "the SHA-256 of its bytes; the .jsonl beside each tells their names. Times (_ms) are milliseconds since "
    "1970-01-01 UTC. SHA256SUMS checks all parts."
)
SEAL = b"moldwright-archive SHA-256 "
"""The zip's comment: this, then the SHA-256 of every byte before those last 64."""
SEAL_DIGITS = 64
LATEST_MS = 1 << 48
"""Times of a UUID of version 7 lie before this (RFC 9562, 5.7)."""
LONGEST_LINE = 16_000_000
LONGEST_ABOUT = 16_000_000
LONGEST_PLAN = 64_000_000
LONGEST_FILE = max(LARGEST_SCAN, *LARGEST.values())
"""Bytes of a line, of archive.json, of a plan and of a file at most; our own."""
MOST_SWELLING, FREE_BYTES = 200, 1_000_000
"""How many times larger than it lies in the archive a part that is read at once may become, past so many bytes. A plan
is packed to a tenth; deflate reaches 1,032 (RFC 1951, a run of 258 bytes in 2 bits). Lists are read line by line."""
