"""The short lines that are typed at the bench: Enter, figures, and words of one letter."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import Enum

FIGURE = re.compile(r"[+−-]?\d+([.,]\d+)?(\s*/\s*\d+)?(\s*[^\W\d_]{1,8}\.?)?|[+−-]?[.,]\d+.*", re.UNICODE)


class LineWord(Enum):
    """What a line asks for."""

    ENTER = 1
    FIGURE = 2
    STRIKE = 3
    NOTE = 4
    PROBLEM = 5
    AIR = 6
    GAUGE = 7
    CUP = 8
    LOT = 9
    SCALE = 10
    LEAVE_OUT = 11
    PHOTO = 12
    TURN_TO = 13
    AGAIN = 14
    GELLED = 15
    DONE = 16
    BOX = 17
    RIGHT = 18
    MOLD = 19
    HELP = 20
    QUIT = 21
    HAND = 22
    TEXT = 23
    PROOF = 24
    REST = 25


LETTERS = {
    "ok": LineWord.ENTER,
    "u": LineWord.STRIKE,
    "-": LineWord.STRIKE,
    "n": LineWord.NOTE,
    "p": LineWord.PROBLEM,
    "*": LineWord.PROBLEM,
    "t": LineWord.AIR,
    "g": LineWord.GAUGE,
    "c": LineWord.CUP,
    "l": LineWord.LOT,
    "k": LineWord.SCALE,
    "o": LineWord.LEAVE_OUT,
    "f": LineWord.PHOTO,
    "/": LineWord.TURN_TO,
    "+": LineWord.AGAIN,
    "x": LineWord.GELLED,
    "d": LineWord.DONE,
    "b": LineWord.BOX,
    "r": LineWord.RIGHT,
    "m": LineWord.MOLD,
    "h": LineWord.HAND,
    "ap": LineWord.PROOF,
    "w": LineWord.REST,
    "?": LineWord.HELP,
    "q": LineWord.QUIT,
}
BARE = frozenset((LineWord.ENTER, LineWord.AGAIN, LineWord.HELP, LineWord.QUIT, LineWord.RIGHT))
"""Words that take nothing behind them."""
HELP = """\
Enter does what stands behind "Enter:". A figure is what the scale reads, all of it, or the digit of a choice;
+3.2 is what went in alone.
  -  or u       strike the last entry out (u CODE: another one)
  +             say this step again      /  what else is at hand, /36 turns to it, /36/2 of cast 2
  r             ways to put a cup right  x [50 %]  the cup is past use (half of it on the work)
  h             this step is in hand     d [36] [14:05]  a step is done, whatever it waited for
  o [36] WHY    leave a step out         b [2] TEXT  write in a box of this step
  l LOT         the lot of this part     k 100 99.8  the scale shows 99.8 for a weight of 100
  t 24.5 [45 %] the shop's air           c 31  the mix in the cup          g 1.2 1.6  the coat by the gauge
  n TEXT        a note                   p or *  what went wrong           f FILE [TEXT]  a photo
  m [NAME]      the mold enters the register                             w B 180  what 180 g of B still cover
  q             leave: nothing is lost, the run stays open"""


@dataclass(frozen=True, slots=True)
class BenchLine:
    """A line as it was understood: what it asks for, and what stands behind."""

    word: LineWord
    rest: str = ""


def bench_line(text: str) -> BenchLine:
    """A typed line.

    Parameters
    ----------
    text : as it was typed.

    >>> [(line.word.name, line.rest) for line in map(bench_line, ("32.4", "n it wobbled", "/36/2", "plastic"))]
    [('FIGURE', '32.4'), ('NOTE', 'it wobbled'), ('TURN_TO', '36/2'), ('TEXT', 'plastic')]
    """
    plain = text.strip()
    if not plain:
        return BenchLine(LineWord.ENTER)
    head, _, rest = plain.partition(" ")
    if plain[0] in "/*" and len(head) > 1:
        head, rest = plain[0], plain[1:]
    word = LETTERS.get(head.casefold())
    if word is not None and not (word in BARE and rest):
        return BenchLine(word, rest.strip())
    return BenchLine(LineWord.FIGURE if FIGURE.fullmatch(plain) else LineWord.TEXT, plain)
