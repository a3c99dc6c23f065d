"""A folder of photos, read by bounded child processes."""

from __future__ import annotations

import json
import time
from collections import Counter
from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from moldwright.child.start import Child, child_process
from moldwright.errors import InputRefused
from moldwright.photos.reading.limits import PhotoLimits
from moldwright.photos.reading.names import Named, file_hashes, joined, named_in
from moldwright.photos.reading.photo import Photo, Photos
from moldwright.photos.told import PhotoReason, PhotoTold
from moldwright.progress import Progress, silent

STAGE = "reading the photos"
LOOK_S = 0.02
LOST = {"dropped": PhotoReason.UNREADABLE}
SAVE_JPEG = "Set the phone's camera to its most compatible format, or share the photos as JPEG, and give these."
SAVE_AGAIN = "Copy the photos from the phone again, as JPEG or PNG, and check that they open in a picture viewer."
TAKE = "Put the JPEG, PNG or HEIC photos of the piece on its printed sheet into the folder, two rings of them."


def read_photos(
    folder: str | Path, leave_out: tuple[str, ...] = (), limits: PhotoLimits | None = None, progress: Progress = silent
) -> Photos:
    """Every photo of a folder, upright at its working size; one that cannot be read is told and left out.

    The files are decoded by child processes only, which answer with plain arrays and end when this process does. A
    photo at which a child runs out of memory or of time, or breaks, is dropped, and another child reads the rest.

    Raises `InputRefused` where there is no such folder, no photo in it, none that can be read, or too many.

    Parameters
    ----------
    folder : JPEG, PNG or HEIC photos; `NAME.mask.png` beside `NAME.jpg` is its mask: white where the piece is.
    leave_out : names of photos that the maker leaves out.
    limits : what reading may cost.
    progress : told how far it is; may raise to cancel.
    """
    limits, home = limits or PhotoLimits(), Path(folder).absolute()
    names = named_in(home, leave_out, limits)
    if not names:
        raise InputRefused("no-photos", 0, 1, "photos", TAKE)
    at = TemporaryDirectory(prefix="moldwright-")
    try:
        answers = []
        for answer in _answers(home, names, Path(at.name), limits):
            answers.append(answer)
            progress(STAGE, len(answers) / len(names))
        return _photos(home, names, answers, at, limits, leave_out)
    except BaseException:
        at.cleanup()
        raise


def _answers(home: Path, names: tuple[Named, ...], at: Path, limits: PhotoLimits) -> Iterator[dict[str, Any]]:
    """One answer for each photo in turn."""
    done = 0
    while done < len(names):
        rest = [[number, names[number].photo, names[number].mask] for number in range(done, len(names))]
        order = {"photos": rest, "home": str(home), "limits": asdict(limits)}
        with child_process("moldwright.photos.reading.reader_child", order, at) as child:
            while done < len(names) and (answer := _next(child, at / f"{done}.json", limits.wall_s)) is not None:
                yield answer
                done += 1
        if done < len(names):
            yield LOST
            done += 1


def _next(child: Child, file: Path, wall_s: float) -> dict[str, Any] | None:
    """The answer that comes in this file, None where the child ends without it or takes too long."""
    until = time.monotonic() + wall_s
    while time.monotonic() < until:
        ended = child.poll() is not None
        if file.exists():
            answer: dict[str, Any] = json.loads(file.read_text(encoding="utf-8"))
            return answer
        if ended:
            return None
        time.sleep(LOOK_S)
    return None


def _photos(
    home: Path,
    names: tuple[Named, ...],
    answers: list[dict[str, Any]],
    at: TemporaryDirectory[str],
    limits: PhotoLimits,
    leave_out: tuple[str, ...],
) -> Photos:
    photos = [_photo(number, names[number], answer, Path(at.name)) for number, answer in enumerate(answers)]
    used = tuple(photo for photo in photos if isinstance(photo, Photo))
    told = [photo for photo in photos if isinstance(photo, PhotoTold)]
    if not used:
        raise _none_readable(told)
    hashes = [
        answer.get("sha256") or file_hashes(home, named, limits) for named, answer in zip(names, answers, strict=True)
    ]
    pairs = zip(names, hashes, strict=True)
    told += [PhotoTold(name, False, PhotoReason.LEFT_OUT) for name in leave_out]
    told.sort(key=lambda each: each.file)
    return Photos(used, tuple(told), joined((named.photo, of) for named, of in pairs), at)


def _photo(number: int, named: Named, answer: dict[str, Any], at: Path) -> Photo | PhotoTold:
    if "width" not in answer:
        reason = PhotoReason(answer.get("dropped", PhotoReason.UNREADABLE))
        return PhotoTold(named.photo, False, reason, answer.get("figure", 0.0), answer.get("limit", 0.0))
    masked = at / f"{number}.mask.npy" if named.mask else None
    shape = answer["width"], answer["height"], answer["quarters"], answer["focal"], answer["sha256"]
    return Photo(named.photo, *shape, at / f"{number}.npy", masked)


def _none_readable(told: list[PhotoTold]) -> InputRefused:
    reason = Counter(each.reason for each in told).most_common(1)[0][0]
    return InputRefused("no-photo-readable", f"{len(told)} {reason}", 1, "photos", remedy_of(reason))


def remedy_of(reason: PhotoReason | None) -> str:
    """What to do about photos that cannot be read.

    Parameters
    ----------
    reason : why they cannot.
    """
    return SAVE_JPEG if reason is PhotoReason.HEIC_UNREADABLE else SAVE_AGAIN
