"""The one place where words leave the program for a terminal; what strangers wrote in them is made harmless here.

Nothing else in the package prints, as a test holds. Words are printed with every steering character as its escape; JSON
leaves as ASCII, every other character as JSON's own escape, so that programs read back exactly what was found.
"""

from __future__ import annotations

import json
import os
import sys
from typing import Any

from moldwright.text.harmless import harmless


class ReaderGoneError(Exception):
    """Who read what the command prints has closed its end."""


def say(words: str, to_stderr: bool = False, end: str = "\n") -> None:
    """Print words.

    Parameters
    ----------
    words : one or several lines; line ends and all else in them that others wrote went through `harmless` before.
    to_stderr : for stages, refusals and remedies; results go to stdout.
    end : what comes after them.
    """
    _print(harmless(words, keep="\n"), to_stderr, end)


def say_json(value: Any, to_stderr: bool = False, indent: int | None = None) -> None:
    """Print a value as JSON in ASCII.

    Parameters
    ----------
    value : what `json` can write.
    to_stderr : for refusals; results go to stdout.
    indent : spaces per level, None for one line.
    """
    _print(json.dumps(value, ensure_ascii=True, indent=indent), to_stderr, "\n")


def _print(text: str, to_stderr: bool, end: str) -> None:
    """A reader of stderr who has gone changes no exit code; one of stdout ends the command."""
    try:
        print(text, file=sys.stderr if to_stderr else sys.stdout, end=end, flush=True)
    except BrokenPipeError as gone:
        if not to_stderr:
            raise ReaderGoneError from gone
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stderr.fileno())
