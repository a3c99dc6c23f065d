"""`moldwright new`: a commented commission, written by asking."""

from __future__ import annotations

import os
import shlex
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from moldwright.commission.keys import ValueKind, keys
from moldwright.commission.values import value_of
from moldwright.desk.exits import words
from moldwright.desk.inputs import is_file
from moldwright.desk.say import say
from moldwright.desk.whole_file import write_file
from moldwright.desk.write_commission import commission_text
from moldwright.errors import InputRefused
from moldwright.materials import Library, library
from moldwright.text.harmless import harmless


@dataclass(frozen=True, slots=True)
class Question:
    """One thing asked: the dotted key, the words, and what Enter takes ("" leaves the key out)."""

    dotted: str
    words: str
    enter: str


QUESTIONS = (
    Question("original.file", "Which scan", ""),
    Question("original.name", "What is the piece called", ""),
    Question(
        "original.height", 'How tall is it, board to top ("160 mm", "8 in"; Enter: the scan has its true size)', ""
    ),
    Question("original.unit", "In which unit are the scan's numbers (mm, cm, m, in, ft)", "mm"),
    Question("original.up", "Which way of the scan is up (+x … -z; Enter: find it)", ""),
    Question("original.material", "What is the original made of (plastic, wood, sulfur clay, …)", "unknown"),
    Question("edition.count", "How many casts", "1"),
    Question("mold.rubber", "Which rubber", "addition-cure-a10-slow"),
    Question("mold.thickness", "How thick is the rubber, all coats together", "4 mm"),
    Question("cast.resin", "Which resin for the skin", "urethane-fast"),
    Question("cast.powder", "Which powder in it", "bronze"),
    Question("shop.temperature", "How warm is the shop", "22 °C"),
    Question("shop.units", "Which units on the sheets (metric, us)", "metric"),
    Question("shop.paper", "Which paper (a4, letter)", "a4"),
)
KINDS = {"mold.rubber": "rubber", "cast.resin": "resin", "cast.powder": "powder"}
MOST_TRIES, LONGEST_ANSWER = 50, 10_000
MOST_DIGITS = 9
"""Of a typed count: far past every key's limit, which the refusal tells."""
Ask = Callable[[str], str]


def run_new(out: Path, replace: bool = False) -> None:
    """Ask, and write the commission.

    Parameters
    ----------
    out : the file to write.
    replace : write over an existing file.
    """
    if os.path.lexists(out) and not replace:
        remedy = "Choose another name with --out, or write over it with --replace."
        raise InputRefused("file-exists", str(out), "a new file", "", remedy)
    if not out.parent.is_dir():
        raise InputRefused("folder-missing", str(out.parent), "a folder", "", "Make the folder first.")
    answers = asked(_input, out.parent, library())
    _write(out, commission_text(answers))
    said = harmless(shlex.quote(str(out)))
    say(f"\n{said} is written. Change in it what you like, then:\n  moldwright plan {said} --out plan")


def _write(out: Path, text: str) -> None:
    try:
        write_file(out, text)
    except (OSError, ValueError) as error:
        told = error.strerror if isinstance(error, OSError) else "no usable name"
        remedy = "Choose another place with --out."
        raise InputRefused("file-unwritable", f"{out}: {told}", "a file that can be written", "", remedy) from None


def asked(ask: Ask, home: Path, known: Library) -> dict[str, Any]:
    """The answers by dotted key, each checked; a bad one is asked again.

    Parameters
    ----------
    ask : shows a prompt and returns what was typed.
    home : the folder that the scan's file is relative to.
    known : the library that materials are looked up in.
    """
    answers: dict[str, Any] = {}
    for question in QUESTIONS:
        if question.dotted == "original.unit" and "original.height" in answers:
            continue
        answer = _answer(ask, question, home, known)
        if answer != "":
            answers[question.dotted] = answer
    return answers


def _answer(ask: Ask, question: Question, home: Path, known: Library) -> Any:
    prompt = f"{question.words}{f' [{question.enter}]' if question.enter else ''}: "
    for _ in range(MOST_TRIES):
        typed = ask(prompt).strip() or question.enter
        if not typed and question.dotted != "original.file":
            return ""
        try:
            return _checked(question.dotted, typed, home, known)
        except InputRefused as refused:
            say(words(refused), to_stderr=True)
    remedy = "Write the file by hand: docs/tutorial.md shows the smallest one."
    raise InputRefused("answers-unclear", MOST_TRIES, MOST_TRIES, "answers that cannot be read", remedy)


def _checked(dotted: str, typed: str, home: Path, known: Library) -> Any:
    table, _, name = dotted.partition(".")
    key = keys()[table][name]
    count = key.kind is ValueKind.COUNT and len(typed) <= MOST_DIGITS and typed.isdecimal()
    written: Any = int(typed) if count else typed
    value_of(key, written)
    if dotted in KINDS:
        return getattr(known, KINDS[dotted])(typed).id
    if dotted == "original.file":
        _check_scan(home / typed)
    return written


def _check_scan(path: Path) -> None:
    if not is_file(path):
        raise InputRefused(
            "file-missing", str(path), "a scan", "", "Type its name, relative to the commission's folder."
        )


def _input(prompt: str) -> str:
    say(prompt, end="")
    remedy = "Answer each question, or write the file by hand: docs/tutorial.md shows the smallest one."
    try:
        line = sys.stdin.readline(LONGEST_ANSWER)
    except UnicodeDecodeError:
        raise InputRefused("answers-no-text", "bytes that are no text", "UTF-8 text", "", remedy) from None
    if not line:
        raise InputRefused("answers-ended", "the input ended", "an answer to each question", "", remedy)
    if len(line) == LONGEST_ANSWER:
        raise InputRefused("answers-too-long", len(line), LONGEST_ANSWER, "characters in an answer", remedy)
    return line
