"""`moldwright new`: a commented commission, written by asking."""

from __future__ import annotations

import os
import shlex
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from textwrap import wrap
from typing import Any

from moldwright.commission.keys import ValueKind, keys
from moldwright.commission.values import value_of
from moldwright.desk.asking import MOST_TRIES, typed_line
from moldwright.desk.exits import words
from moldwright.desk.say import say
from moldwright.disk.whole_file import write_file
from moldwright.errors import InputRefused
from moldwright.making.choices import KINDS, MAY_BE_NONE, YES_NO, choices_of
from moldwright.making.commission import commission_text
from moldwright.making.inputs import is_file, is_folder
from moldwright.materials import Library, library
from moldwright.materials.originals import original_material
from moldwright.quantities.chosen import named
from moldwright.text.harmless import harmless


@dataclass(frozen=True, slots=True)
class Question:
    """One thing asked: the dotted key, the words, and what Enter takes ("" leaves the key out)."""

    dotted: str
    words: str
    enter: str


QUESTIONS = (
    Question("original.file", "Which scan (Enter: there is none)", ""),
    Question("original.photos", "Which folder of photos of the piece on its printed sheet (Enter: there is none)", ""),
    Question("original.bar", 'What does the sheet\'s bar of 100 mm measure on your print ("99.6 mm")', "100 mm"),
    Question("original.displaced", 'How much water does it displace ("1.90 l"; Enter: not measured)', ""),
    Question("original.name", "What is the piece called", ""),
    Question(
        "original.height", 'How tall is it, board to top ("160 mm", "8 in"; Enter: the scan has its true size)', ""
    ),
    Question("original.unit", "In which unit are the scan's numbers ", "mm"),
    Question("original.up", "Which way of the scan is up (+x … -z; Enter: find it)", ""),
    Question("original.material", "What is the original made of", "unknown"),
    Question("edition.count", "How many casts", "1"),
    Question("mold.rubber", "Which rubber", "addition-cure-a10-slow"),
    Question("mold.thickness", "How thick is the rubber, all coats together", "4 mm"),
    Question("mold.release", "Which release agent (none for none; Enter: the usual one for the pair)", ""),
    Question("mold.sealer", "Which sealer on the original (none for none; Enter: the usual one for its material)", ""),
    Question("mold.shell", "What is the support shell made of", "plaster-bandage"),
    Question("mold.seam", "How do its pieces meet: wall, flange against flange, or lap", "wall"),
    Question("cast.resin", "Which resin for the skin", "urethane-standard"),
    Question("cast.powder", "Which powder in it (none for none)", "bronze"),
    Question("cast.skin", "How thick is the skin", "4 mm"),
    Question("cast.solid", "Is the cast solid, all of it of the skin's mix", "no"),
    Question("cast.backfill", "Which resin fills it behind the skin (none: hollow)", "urethane-standard"),
    Question("shop.temperature", "How warm is the shop", "22 °C"),
    Question("shop.scale", "What is the smallest step of the scale", "0.1 g"),
    Question("shop.cup", "How much does a mixing cup hold, to its brim", "500 ml"),
    Question("shop.units", "Which units on the sheets", "metric"),
    Question("shop.paper", "Which paper", "a4"),
)
WIDE = 100
"""Letters in a line of choices: our own."""
ONLY_WATER = 'How much water does it displace ("1.90 l"), as there is no scan and no photo'
NO_ORIGINAL = (
    "Answer with its unit, or stop here (Ctrl-C): moldwright photos prints the sheet for photos; a tape measure's "
    "girths or a weight are written by hand under [original], as docs/commission.md shows."
)
"""What is left to who has none of what is asked for."""
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
    say(
        f"\n{said} is written.{told_of(answers)} Change in it what you like, then:\n  moldwright plan {said} --out plan"
    )


def told_of(answers: Mapping[str, Any]) -> str:
    """That water alone gives no form; "" where a scan or photos do.

    Parameters
    ----------
    answers : values as written, by dotted key.

    >>> told_of({"original.file": "a.stl"})
    ''
    """
    if answers.get("original.file") or answers.get("original.photos"):
        return ""
    return " It gives quantities alone, no mold: add a tape ([original.tape]), photos or a scan for that."


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
        if _settled(question.dotted, answers):
            continue
        answer = _answer(ask, question, home, known, answers)
        if answer != "":
            answers[question.dotted] = answer
    return answers


def _settled(dotted: str, answers: Mapping[str, Any]) -> bool:
    """Whether answers before leave nothing to ask: a scan, all about photos; photos, the height; none of a scan, its
    unit and its up; a height, the unit; a solid cast, the back-fill."""
    scan, photos = "original.file" in answers, "original.photos" in answers
    settled = {
        "original.photos": scan,
        "original.bar": not photos,
        "original.displaced": scan,
        "original.height": photos,
        "original.unit": "original.height" in answers or not scan,
        "original.up": not scan,
        "cast.backfill": answers.get("cast.solid") is True,
    }
    return settled.get(dotted, False)


def _last_chance(dotted: str, answers: Mapping[str, Any]) -> bool:
    """Whether this answer must tell what the original is known by, as none before it did."""
    return dotted == "original.displaced" and not {"original.file", "original.photos"} & set(answers)


def _answer(ask: Ask, question: Question, home: Path, known: Library, answers: Mapping[str, Any]) -> Any:
    needed = _last_chance(question.dotted, answers)
    prompt = f"{ONLY_WATER if needed else question.words}{f' [{question.enter}]' if question.enter else ''}: "
    choices = choices_of(question.dotted, known)
    if choices:
        say(numbered(choices))
    for _ in range(MOST_TRIES):
        typed = _picked(ask(prompt).strip(), choices) or question.enter
        if not typed and not needed:
            return ""
        try:
            if not typed:
                raise InputRefused("original-unknown", "no scan, no photos, no water", "one of them", "", NO_ORIGINAL)
            return _checked(question.dotted, typed, home, known)
        except InputRefused as refused:
            say(words(refused), to_stderr=True)
    remedy = "Write the file by hand: docs/tutorial.md shows the smallest one."
    raise InputRefused("answers-unclear", MOST_TRIES, MOST_TRIES, "answers that cannot be read", remedy)


def numbered(choices: Mapping[str, str]) -> str:
    """The choices with a number each to pick them by.

    Parameters
    ----------
    choices : words to answer, with their names.

    >>> print(numbered({"wall": "", "lap": ""}))
      1 wall · 2 lap
    """
    told = [f"{n} {word}{f' ({name})' if name else ''}" for n, (word, name) in enumerate(choices.items(), start=1)]
    if any(choices.values()):
        return "\n".join(f"  {each}" for each in told)
    joined = " · ".join(each.replace(" ", "\u00a0") for each in told)
    lines = wrap(joined, WIDE, break_on_hyphens=False)
    return "\n".join(f"  {line}" for line in lines).replace("\u00a0", " ")


def _picked(typed: str, choices: Mapping[str, str]) -> str:
    """The word that a number stands for; anything else as it was typed."""
    words_ = list(choices)
    if typed.isdecimal() and len(typed) <= MOST_DIGITS and 1 <= int(typed) <= len(words_):
        return words_[int(typed) - 1]
    return typed


def _checked(dotted: str, typed: str, home: Path, known: Library) -> Any:
    table, _, name = dotted.partition(".")
    key = keys()[table][name]
    count = key.kind is ValueKind.COUNT and len(typed) <= MOST_DIGITS and typed.isdecimal()
    written: Any = int(typed) if count else typed
    if key.kind is ValueKind.SWITCH:
        written = YES_NO.get(typed.casefold(), typed)
    value_of(key, written)
    if dotted in MAY_BE_NONE and not named(typed):
        return "none"
    if dotted in KINDS:
        return getattr(known, KINDS[dotted])(typed).id
    if dotted == "original.material":
        return _material(typed)
    if dotted == "original.file":
        _check_scan(home / typed)
    if dotted == "original.photos" and not is_folder(home / typed):
        remedy = "Type its name, relative to the commission's folder."
        raise InputRefused("folder-missing", str(home / typed), "a folder of photos", "", remedy)
    return written


def _material(typed: str) -> str:
    """The class's name; a word that is none stays as it is, and what it counts as is said."""
    found = original_material(typed)
    if not found.known:
        near = f" Near it: {', '.join(found.near)}." if found.near else ""
        say(harmless(f"{typed} is no class of ours: it counts as unknown.{near}"), to_stderr=True)
    return found.name if found.known else typed


def _check_scan(path: Path) -> None:
    if not is_file(path):
        raise InputRefused(
            "file-missing", str(path), "a scan", "", "Type its name, relative to the commission's folder."
        )


def _input(prompt: str) -> str:
    return typed_line(
        prompt, "Answer each question, or write the file by hand: docs/tutorial.md shows the smallest one."
    )
