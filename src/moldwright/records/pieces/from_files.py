"""A commission in a file on the disk, with all that it names, kept as a piece's."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import islice
from pathlib import Path

from moldwright.commission.reading import LONGEST, commission_from_toml
from moldwright.errors import InputRefused
from moldwright.log.ids import FileHash
from moldwright.photos.reading.limits import PhotoLimits
from moldwright.photos.reading.names import named_in
from moldwright.records.files.keep import keep_files
from moldwright.records.files.scans import keep_scan
from moldwright.records.pieces.named import NamedAs, NamedPath, paths_in
from moldwright.records.pieces.names import MOST_FILES, check_names, is_harmless
from moldwright.records.shop import Shop
from moldwright.text.shown import short
from moldwright.text.toml import toml_tables, toml_value
from moldwright.ways import named_key

MOST_PLACES = 20


def keep_named(shop: Shop, text: str, home: Path) -> tuple[str, dict[str, FileHash]]:
    """Keep all files that a commission names; returns its text, with those names that lead elsewhere made plain, and
    the files by name.

    Parameters
    ----------
    shop : the store.
    text : the commission, as TOML.
    home : the folder that its names are relative to.

    Raises InputRefused ("file-name-unusable", "commission-names-unclear", "sheets-missing", those of a commission, of
    `keep_file`, `keep_scan` and of a folder of photos).
    """
    sources: dict[str, tuple[NamedAs, Path]] = {}
    for named in paths_in(commission_from_toml(text)):
        plain = named.path if is_harmless(named.path) else _plain(named)
        text = _renamed(text, named, plain)
        for path in _files(named, home / named.path):
            name = f"{plain}/{path.name}" if named.as_.folder else plain
            if name in sources:
                raise InputRefused("file-name-unusable", short(name), "each name once", "", "Rename one of them.")
            sources[name] = named.as_, path
    check_names(sources)
    scans = {name: keep_scan(shop, path, name) for name, (as_, path) in sources.items() if as_ is NamedAs.SCAN}
    others = [(path, name) for name, (as_, path) in sources.items() if as_ is not NamedAs.SCAN]
    files = scans | dict(zip((name for _, name in others), keep_files(shop, others), strict=True))
    return text, {name: files[name] for name in sources}


def _plain(named: NamedPath) -> str:
    """What a file is called here whose name leads elsewhere."""
    last = named.path.replace("\\", "/").rstrip("/").rpartition("/")[2]
    return last if is_harmless(last) else named.as_.key


def _files(named: NamedPath, path: Path) -> Iterator[Path]:
    if named.as_ is NamedAs.PHOTOS:
        for each in named_in(path, (), PhotoLimits()):
            yield from (path / name for name in (each.photo, each.mask) if name)
    elif named.as_ is NamedAs.SHEETS:
        try:
            found = sorted(islice(path.glob("*.toml"), MOST_FILES + 1)) if path.is_dir() else []
        except (OSError, ValueError):
            found = []
        if not found:
            remedy = f"Check {named_key('shop.sheets')} in the commission: a folder, relative to the commission's file."
            raise InputRefused("sheets-missing", short(named.path), "a folder with sheets", "", remedy)
        yield from found
    else:
        yield path


def _renamed(text: str, named: NamedPath, plain: str) -> str:
    """The same commission with one name in it changed, and that one only."""
    if plain == named.path:
        return text
    wanted = _tables(text)
    wanted[named.as_.table][named.as_.key] = plain
    spelled = "|".join(map(re.escape, (toml_value(named.path), f'"{named.path}"', f"'{named.path}'")))
    for place in islice(re.finditer(spelled, text), MOST_PLACES):
        tried = f"{text[: place.start()]}{toml_value(plain)}{text[place.end() :]}"
        if _same(tried, wanted):
            return tried
    told = f"{named.as_.table}.{named.as_.key}: {short(named.path)}"
    remedy = "Put the file beside the commission, and write its name alone."
    raise InputRefused("commission-names-unclear", told, "a file beside the commission", "", remedy)


def _same(text: str, wanted: dict[str, dict[str, object]]) -> bool:
    try:
        return _tables(text) == wanted
    except InputRefused:
        return False


def _tables(text: str) -> dict[str, dict[str, object]]:
    return toml_tables(text, "commission", "commission-not-toml", LONGEST)
