"""The child's side: take the order, end with the parent, and turn whatever goes wrong into an answer."""

from __future__ import annotations

import json
import os
import threading
from collections.abc import Callable
from pathlib import Path
from stat import S_ISREG
from typing import Any, BinaryIO

from moldwright.child.start import ORDER
from moldwright.errors import InputRefused

LOST = "The file was there and could not be read to its end: check its disk, and that nothing moves it meanwhile."
WITHOUT_WAITING = getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
Answer = dict[str, Any]
Look = Callable[[bytes, int], object] | None


def order_in(folder: Path) -> Answer:
    """The order, and from now on this process ends when its standard input does: with the process that started it.

    Parameters
    ----------
    folder : where the order is.
    """
    threading.Thread(target=_end_with_parent, daemon=True).start()
    order: Answer = json.loads((folder / ORDER).read_text(encoding="utf-8"))
    return order


def answered(work: Callable[[], Answer]) -> Answer:
    """What the work answers; a refusal as {"refused": ...}, any other end as {"died": "memory" or what happened}.

    Parameters
    ----------
    work : reads one untrusted file.
    """
    try:
        return work()
    except InputRefused as refused:
        return {"refused": refused.as_dict()}
    except OSError as error:
        lost = InputRefused("file-unreadable", error.strerror or "no answer", None, "", LOST)
        return {"refused": lost.as_dict()}
    except (MemoryError, RecursionError):
        return {"died": "memory"}
    except Exception as error:
        return {"died": f"{type(error).__name__}: {error}"[:300]}


def leave(answer: Answer, file: Path) -> None:
    """Write an answer so that it is there whole or not at all.

    Parameters
    ----------
    answer : plain values.
    file : where the parent looks for it.
    """
    part = file.with_suffix(".part")
    part.write_text(json.dumps(answer), encoding="utf-8")
    part.replace(file)


def regular_bytes(path: Path, most_bytes: int, look: Look = None, head_bytes: int = 1 << 16) -> bytes:
    """All bytes of a regular file, read once; where it is larger than allowed, one byte more than that.

    Parameters
    ----------
    path : the file.
    most_bytes : allowed.
    look : is given the first bytes and the file's size, and may refuse it before the rest is read.
    head_bytes : how many the first are.
    """
    with regular_file(path) as file:
        head = file.read(head_bytes)
        if look is not None:
            look(head, os.fstat(file.fileno()).st_size)
        return head + file.read(max(0, most_bytes + 1 - len(head)))


def regular_file(path: Path) -> BinaryIO:
    """A regular file, open for reading; a pipe or a device is refused and never waited for.

    Parameters
    ----------
    path : the file.
    """
    file = os.fdopen(os.open(path, os.O_RDONLY | WITHOUT_WAITING), "rb")
    if not S_ISREG(os.fstat(file.fileno()).st_mode):
        file.close()
        raise InputRefused("not-a-file", path.name, "a file", "", "Give the file itself, not its folder.")
    return file


def _end_with_parent() -> None:
    while os.read(0, 1):
        pass
    os._exit(1)
