"""`moldwright shop backup | export | restore`: all records as one file, and back."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import asdict
from datetime import datetime
from pathlib import Path

from moldwright.archive.read import opened_archive
from moldwright.archive.restore import Restored, restore
from moldwright.archive.save import backup, export
from moldwright.archive.write import Archived
from moldwright.desk.say import say, say_json
from moldwright.desk.shop_at import opened
from moldwright.desk.stage_bars import stages
from moldwright.errors import InputRefused
from moldwright.making.places import data_folder, real_path
from moldwright.making.shop import shop_place
from moldwright.text.harmless import harmless

SAME_DISK = "It lies on this machine's own disk: copy it to a stick, or name one: `moldwright shop backup FOLDER`."
CHECK = "`moldwright shop check` names them."


def run_backup(folder: Path | None, place: str, as_json: bool, quiet: bool) -> None:
    """Write a dated archive into a folder and tell.

    Parameters
    ----------
    folder : where; None: in the user's data folder.
    place : the store.
    as_json : print one JSON object.
    quiet : no stages.
    """
    into = real_path(folder) if folder is not None else data_folder() / "backups"
    if folder is None:
        into.mkdir(exist_ok=True)
    _check_there(place)
    with opened(place) as shop, stages(quiet or as_json) as progress:
        path, told = backup(shop, into, datetime.now(), progress)
    _tell(path, told, as_json, [SAME_DISK] if folder is None else [])


def run_export(out: Path, place: str, as_json: bool, quiet: bool) -> None:
    """Write an archive to a named file and tell.

    Parameters
    ----------
    out : the file.
    place : the store.
    as_json : print one JSON object.
    quiet : no stages.
    """
    _check_there(place)
    with opened(place) as shop, stages(quiet or as_json) as progress:
        told = export(shop, real_path(out), progress)
    _tell(real_path(out), told, as_json, [])


def run_restore(archive: Path, unreadable: bool, place: str, as_json: bool, quiet: bool) -> None:
    """Put an archive back and tell.

    Parameters
    ----------
    archive : the file.
    unreadable : keep events that this version cannot read.
    place : the store, empty or not there yet.
    as_json : print one JSON object.
    quiet : no stages.
    """
    where = shop_place(place)
    with (
        stages(quiet or as_json) as progress,
        opened_archive(real_path(archive), progress) as found,
        _gone_again(where),
        opened(place) as shop,
    ):
        told = restore(shop, found, unreadable, progress)
    if as_json:
        say_json({"shop": where, **asdict(told)})
        return
    lines = [f"Restored into {harmless(where)}", f"  {_counts(told)}"]
    if told.missing:
        lines.append(f"  {_some(len(told.missing), 'file')} of it were missing or damaged when it was written. {CHECK}")
    if told.unreadable:
        lines.append(f"  {_some(told.unreadable, 'event')} cannot be read by this version and lie there as they came.")
    say("\n".join(lines))


def _check_there(place: str) -> None:
    """An archive of a store that is not there would hold nothing, and look like a backup."""
    where = shop_place(place)
    if "://" not in where and not Path(where).is_file():
        remedy = "Name the store's file: --shop FILE, or MOLDWRIGHT_SHOP."
        raise InputRefused("shop-missing", where, "a shop's records", "", remedy)


@contextmanager
def _gone_again(where: str) -> Iterator[None]:
    """A file that was made for nothing is not left behind."""
    new = "://" not in where and not Path(where).exists()
    try:
        yield
    except BaseException:
        for end in ("", "-wal", "-shm") if new else ():
            Path(f"{where}{end}").unlink(missing_ok=True)
        raise


def _tell(path: Path, told: Archived, as_json: bool, more: list[str]) -> None:
    if as_json:
        say_json({"archive": str(path), "bytes": path.stat().st_size, **asdict(told)})
        return
    lines = [f"Written, and read again from the disk: {harmless(str(path))}", f"  {_counts(told)}", *_lost(told)]
    say("\n".join([*lines, *(f"  {each}" for each in more)]))


def _lost(told: Archived) -> list[str]:
    kinds = ((len(told.files_missing), "file"), (len(told.plans_missing), "plan"))
    return [f"  {_some(n, what)} missing or damaged in the shop, and not in it. {CHECK}" for n, what in kinds if n]


def _counts(told: Archived | Restored) -> str:
    kinds = ((told.events, "event"), (told.plans, "plan"), (told.files, "file"))
    return ", ".join(_some(count, what) for count, what in kinds) + "."


def _some(count: int, what: str) -> str:
    return f"{count:,} {what}{'' if count == 1 else 's'}"
