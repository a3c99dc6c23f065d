"""Values as a stranger might write them: every type of TOML, every size, every script. Seeded, so each comes again."""

from __future__ import annotations

from collections.abc import Callable
from random import Random

DIGITS = ("0123456789", "٠١٢٣٤٥٦٧٨٩", "０１２３４５６７８９", "०१२३४५६७८९", "𝟎𝟏𝟐𝟑𝟒𝟓𝟔𝟕𝟖𝟗")
UNITS = (
    "mm", "cm", "m", "in", "ft", "'", '\\"', "g", "kg", "mg", "oz", "lb", "ml", "l", "fl oz", "pt", "cups", "s",
    "min", "h", "d",
    "°C", "°F", "K", "%", "g/min", "oz/min", "g per min", "g/ml", "g/cc", "kJ/mol", "MPa", "psi", "cps", "kN/m",
    "each", "", "Ω",
    "ｍｍ", "𝐦𝐦", "mm mm", "parsec",
)  # fmt: skip
SCRIPTS = (
    "abcdefghijklmnopqrstuvwxyz", "ÄÖÜßéèñçøåþ", "кириллица", "ελληνικά", "עברית", "العربية", "中文日本語", "한국어",
    "ไทย",
    "अआइ", "e\u0301a\u0308o\u0323\u0307n\u0303" * 2, "\u0300\u0301\u0302\u0303\u0489\u20dd", "👩‍👩‍👧‍👦🏳️‍🌈👍🏽🦦",
    "\u202a\u202b\u202d\u202e\u202c\u2066\u2067\u2068\u2069\u200e\u200f\u061c",
    "\u200b\u200c\u200d\u2060\ufeff\u00ad",
    "\x80\x85\x9b\x9d\x9f", "½⅓¼⅞⅒", "−–—‐×÷±", "\u2028\u2029\u00a0\u3000\u202f", "\ue000\uf8ff\U000f0000",
    "\uffff\U0010ffff\u0378",
    "𝔣𝔯𝔞𝔨𝔱𝔲𝔯", "ﷺ﷽", "\U000e0041\U000e007f",
)  # fmt: skip
ESCAPES = (
    "\\u0000", "\\u001b[31m", "\\u001b]0;x\\u0007", "\\n", "\\r", "\\t", "\\b", "\\u009b2J", "\\u202e",
    "\\U0001f9a6", "\\\\", '\\"',
    "\\ud800", "\\uffff", "\\x41", "\\e", "\\u007f",
)  # fmt: skip
NUMBERS = (
    "0", "-0", "+0", "1", "-1", "2", "4", "7", "12", "255", "256", "65536", "2147483648", "9223372036854775808",
    "-9223372036854775809", "1_000", "0x10", "0o17", "0b11", "0.0", "-0.0", "1.0", "0.1", "1e-320", "1e308",
    "1e309", "-1e999", "1e-999",
    "nan", "inf", "-inf", "+nan", "3.141592653589793", "01", "1.", ".5", "1__0", "0x", "1e", "--1",
)  # fmt: skip
DATES = (
    "1979-05-27",
    "07:32:00",
    "1979-05-27T07:32:00Z",
    "1979-05-27 07:32:00.999999-07:00",
    "0000-01-01",
    "2023-02-30",
)
ENDLESS = ("9" * 5000, "-" + "1" * 5000, "0x" + "f" * 5000, "1" * 400 + ".0", "9" * 4301, "1_" * 4400 + "1")
OTHERS = ("true", "false", "True", "null", "None", "[]", "{}", '""', "''", '""""""', "''''''", "[[]]", "[{}]", "{a={}}")


def digits(chance: Random, most: int = 7) -> str:
    """A number as people and others write it, in one script of digits."""
    script = chance.choice(DIGITS) if chance.random() < 0.15 else DIGITS[0]
    whole = "".join(chance.choice(script) for _ in range(chance.randint(1, chance.choice((1, 2, 3, most)))))
    tail = "".join(chance.choice(script) for _ in range(chance.randint(0, 3)))
    form = chance.random()
    if form < 0.55:
        return whole
    if form < 0.85:
        return f"{whole}{chance.choice('.,')}{tail}"
    return chance.choice(
        (f"{whole}/{tail or 2}", f"{whole}½", f"{whole} 1/{tail or 0}", f"-{whole}", f"−{whole}", f"{whole}e{tail}")
    )


def quantity(chance: Random) -> str:
    """Text that looks like a quantity."""
    one = f"{digits(chance)}{chance.choice((' ', '', '  ', ' '))}{chance.choice(UNITS)}"
    if chance.random() < 0.15:
        one = chance.choice(
            (f"{one} {digits(chance)} {chance.choice(UNITS)}", f"{one} to {one}", f"{one} ({one}–{one})", f"{one}:30")
        )
    return one


def words(chance: Random, most: int = 12) -> str:
    """Text of one or two scripts."""
    script = chance.choice(SCRIPTS)
    text = "".join(chance.choice(script) for _ in range(chance.randint(0, most)))
    if chance.random() < 0.3:
        text += chance.choice((chance.choice(ESCAPES), words(chance, most)))
    return text


def long_text(chance: Random) -> str:
    """Text of every size up to a million characters, the largest seldom."""
    size = chance.choice((10, 81, 200, 201, 501, 5_000, 5_000, 60_000, 1_000_000 if chance.random() < 0.03 else 9_000))
    return (chance.choice((words(chance, 20), " ", "9", "½", "\\\\", "a b", "1 to ", "' ", "\\n")) or "x") * size


def quoted(text: str) -> str:
    """The text as TOML; some of it is none, as it must be."""
    return f'"{text}"'


def any_value(chance: Random, depth: int = 0) -> str:
    """Anything that may stand after an equals sign."""
    forms: tuple[Callable[[], str], ...] = (
        lambda: quoted(quantity(chance)),
        lambda: quoted(words(chance)),
        lambda: chance.choice(NUMBERS),
        lambda: chance.choice((*DATES, *OTHERS)),
        lambda: quoted(long_text(chance)),
        lambda: chance.choice(ENDLESS),
        lambda: nested(chance),
        lambda: collection(chance, depth),
    )
    return chance.choices(forms, weights=(30, 15, 15, 6, 4, 4, 3, 23))[0]()


def nested(chance: Random) -> str:
    """Brackets in brackets."""
    deep = chance.choice((3, 20, 60, 900, 20_000))
    return chance.choice(("[" * deep + "]" * deep, "{a=" * deep + "1" + "}" * deep, "[" * deep, "[{a=" * deep))


def collection(chance: Random, depth: int) -> str:
    """A list or a table of anything."""
    if depth > 2:
        return chance.choice(OTHERS)
    items = [any_value(chance, depth + 1) for _ in range(chance.choice((1, 2, 2, 3, 3, 4, 9)))]
    if chance.random() < 0.5:
        return f"[{', '.join(items)}]"
    names = ("value", "source", "name", "thickness", "amount", "unit", "price", "labor", "wait", "x")
    return "{" + ", ".join(f"{chance.choice(names)} = {item}" for item in items) + "}"
