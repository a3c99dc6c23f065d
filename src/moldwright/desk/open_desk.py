"""Opening the desk from the terminal: its settings, its passphrase, where it is reached."""

from __future__ import annotations

import sys
import webbrowser
from pathlib import Path
from urllib.parse import urlsplit

import typer

from moldwright.desk.say import say
from moldwright.errors import InputRefused
from moldwright.making.shop import bench_name
from moldwright.web.assets import refuse_unbundled
from moldwright.web.doors.calls import address_of
from moldwright.web.doors.file import DoorFile
from moldwright.web.doors.machine import machine_addresses, machine_names
from moldwright.web.doors.passphrase import Passphrase, same_twice
from moldwright.web.serve import refuse_unusable, serve
from moldwright.web.settings import LOOPBACK, Settings


def open_desk(
    place: str,
    files: Path | None,
    data: Path,
    port: int,
    lan: bool,
    hosts: tuple[str, ...],
    https: bool,
    quiet: bool,
    closed: bool,
) -> None:
    """Serve the desk until Ctrl-C.

    Parameters
    ----------
    place, files : the store, and the folder of its files.
    data : the desk's data folder.
    port : the port, 0 for any free one.
    lan : whether other devices may come in.
    hosts : further names by which they reach this machine.
    https : whether it answers by HTTPS.
    quiet : print nothing.
    closed : open no browser.
    """
    refuse_unbundled()
    settings = Settings(place, files, data, lan, hosts_of(lan, hosts), bench_name(), https)
    refuse_unusable(settings)
    if lan:
        _ask_passphrase(Passphrase(DoorFile(data)), quiet)
    serve(settings, port, lambda address: _opened(address, settings, quiet, closed))


def hosts_of(lan: bool, told: tuple[str, ...]) -> tuple[str, ...]:
    """Names and addresses by which browsers may call the desk.

    Parameters
    ----------
    lan : whether other devices may come in.
    told : further ones.

    Raises InputRefused ("host-without-lan", "host-name").
    """
    if told and not lan:
        raise InputRefused("host-without-lan", told[0], "--lan", "", "Add --lan, or leave --host out.")
    names = [_host(each) for each in told]
    return tuple(dict.fromkeys((*LOOPBACK, *names, *machine_addresses(), *machine_names()))) if lan else LOOPBACK


def _host(told: str) -> str:
    name = told.strip().lower().rstrip(".")
    address = address_of(name)
    if address is not None:
        return f"[{address}]" if address.version == 6 else str(address)
    if not name.isascii() or not name or len(name) > 253 or name.strip("-.abcdefghijklmnopqrstuvwxyz0123456789"):
        remedy = "Write a name or an address alone, without http:// and port."
        raise InputRefused("host-name", told, "a name like desk.local, or an address", "", remedy)
    return name


def _ask_passphrase(passphrase: Passphrase, quiet: bool) -> None:
    """At the first start, where somebody sits at the terminal; else it is set on the page Shop."""
    if passphrase.is_set or not sys.stdin.isatty():
        return
    say("Other devices come in by a passphrase. Choose one: four or five words that nobody would put together.")
    while not passphrase.is_set:
        first = typer.prompt("Passphrase", hide_input=True)
        try:
            same_twice(first, typer.prompt("The same again", hide_input=True))
            passphrase.set(first)
        except InputRefused as refused:
            say(refused.sentence())


def _opened(address: str, settings: Settings, quiet: bool, closed: bool) -> None:
    if not quiet:
        say("\n".join([f"The desk is open: {address}", *_far(address, settings)]))
    if not closed:
        webbrowser.open(address)


def _far(address: str, settings: Settings) -> list[str]:
    if not settings.lan:
        return []
    parts = urlsplit(address)
    sites = [f"  {parts.scheme}://{host}:{parts.port}/" for host in settings.hosts if host not in LOOPBACK]
    if not sites:
        return ["This machine has no address in a network yet: other devices cannot reach it."]
    missing = (
        []
        if Passphrase(DoorFile(settings.data)).is_set
        else ["No passphrase is set yet, so nobody comes in from there: set it on the page Shop."]
    )
    return ["From other devices:", *sites, *missing]
