"""Questions at the terminal: an answer that cannot be read is asked again."""

from __future__ import annotations

import sys
from collections.abc import Callable

from moldwright.desk.exits import words
from moldwright.desk.say import say
from moldwright.errors import InputRefused

MOST_TRIES, LONGEST_ANSWER = 50, 10_000


def answer_to(ask: Callable[[str], str], prompt: str, check: Callable[[str], None]) -> str:
    """An answer that the check lets pass.

    Parameters
    ----------
    ask : shows a prompt and returns what was typed.
    prompt : the question.
    check : raises InputRefused for an answer that cannot be; it is told, and asked again.

    Raises InputRefused ("answers-unclear").
    """
    for _ in range(MOST_TRIES):
        typed = ask(prompt).strip()
        try:
            check(typed)
        except InputRefused as refused:
            say(words(refused), to_stderr=True)
        else:
            return typed
    remedy = "Give it by options instead: --help tells them."
    raise InputRefused("answers-unclear", MOST_TRIES, MOST_TRIES, "answers that cannot be read", remedy)


def typed_line(prompt: str, remedy: str) -> str:
    """What was typed at the terminal.

    Parameters
    ----------
    prompt : the question.
    remedy : what to do where no answer comes.

    Raises InputRefused ("answers-ended", "answers-no-text", "answers-too-long").
    """
    say(prompt, end="")
    try:
        line = sys.stdin.readline(LONGEST_ANSWER)
    except UnicodeDecodeError:
        raise InputRefused("answers-no-text", "bytes that are no text", "UTF-8 text", "", remedy) from None
    if not line:
        raise InputRefused("answers-ended", "the input ended", "an answer to each question", "", remedy)
    if len(line) == LONGEST_ANSWER:
        raise InputRefused("answers-too-long", len(line), LONGEST_ANSWER, "characters in an answer", remedy)
    return line
