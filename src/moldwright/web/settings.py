"""What a server of the desk is told when it starts."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

LOOPBACK = ("127.0.0.1", "localhost", "[::1]")
"""Hosts by which a browser reaches the machine that it runs on."""


@dataclass(frozen=True, slots=True)
class Settings:
    """Where the records lie, and who may come in.

    Parameters
    ----------
    shop : the store: a file or PostgreSQL's URL.
    files : the folder of its photos and files, None: beside its file.
    data : the folder of what can be made anew or belongs to this machine alone: plans' folders, work, who is signed in.
    lan : whether other devices may come in; then a passphrase is needed.
    hosts : names and addresses by which browsers may call it, without the port.
    bench : the name under which what is written here stands in the log.
    secure : whether it answers by HTTPS.
    """

    shop: str
    files: Path | None
    data: Path
    lan: bool = False
    hosts: tuple[str, ...] = field(default=LOOPBACK)
    bench: str = "desk"
    secure: bool = False
