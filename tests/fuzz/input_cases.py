"""Commissions, own sheets and own steps by seed: some sound, some with wrong values, some broken byte by byte."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from pathlib import Path
from random import Random

from tests.fuzz import input_words as words
from tests.fuzz.input_words import quoted

from moldwright.commission.keys import Key, ValueKind, keys, record_keys
from moldwright.commission.reading import SOURCES
from moldwright.materials import library
from moldwright.materials.sheet_fields import COMMON, figure_rules, kind_rules, plain_keys
from moldwright.materials.shipped import SHEET_FILES, shipped
from moldwright.steps.sheet import step_sheets
from moldwright.text.toml import toml_value

ROOT = Path(__file__).parents[2]
BASE = '[original]\nfile = "a.stl"\nheight = "160 mm"\n'
ABSENT = b""
SHARES = (0.0, 0.0, 0.03, 0.06, 0.15)
"""Of the values of a case, so many are any value at all."""
THROWN = (
    *(bytes([c]) for c in b"\"'[]{}=\n\r\\#.,\x00\xff"), b"\xc0\x80", b"\xed\xa0\x80", b"\x1b[2J", b"\xc2\x9b",
    b"9" * 5000, b'"""',
    b"\xe2\x80\xae", b"\xef\xbb\xbf",
)  # fmt: skip
"""Bytes that end, open or break things in TOML, in UTF-8 or in a terminal."""


@dataclass(frozen=True)
class Case:
    """The bytes of three files; own sheet and own steps may be absent."""

    commission: bytes
    sheet: bytes = ABSENT
    steps: bytes = ABSENT


def case(seed: int) -> Case:
    """The case of that number: a third each begins from commissions, own sheets and own steps.

    Parameters
    ----------
    seed : any whole number.
    """
    chance = Random(seed)
    made = (_commission, _sheet, _steps)[seed % 3](chance)
    if chance.random() < 0.12:
        return Case(*(_mutated(part, chance) if part else part for part in (made.commission, made.sheet, made.steps)))
    return made


def _commission(chance: Random) -> Case:
    own = examples("sheet")[0].encode(), examples("steps")[0].encode()
    if chance.random() < 0.1:
        return Case(chance.choice(examples("commission")).encode(), *own)
    wrong = chance.choice(SHARES)
    rows: list[str] = []
    for table, known in keys().items():
        picked = [key for key in known.values() if key.required or chance.random() < chance.choice((0.1, 0.4, 0.9))]
        if key_named(picked, "coats"):
            picked = [key for key in picked if key.name != "thickness" or chance.random() < 0.1]
        if table == "original" and chance.random() < 0.9:
            picked = [key for key in picked if not key.needs or key_named(picked, key.needs)]
            picked += [] if any(key.name in SOURCES for key in picked) else [known["file"]]
        chance.shuffle(picked)
        lines = [_key_line(key, chance, wrong) for key in picked]
        if chance.random() < wrong:
            lines.append(f"{_key_name(chance, list(known))} = {words.any_value(chance)}")
        rows += [f"[{table}]", *lines] if lines else []
    if chance.random() < 0.3:
        rows += ["[prices]", *(f"{name} = {_price(chance, wrong)}" for name in _ids(chance))]
    return Case(_text(rows, chance, wrong), *own)


def key_named(rows: list[Key], name: str) -> bool:
    """Whether a key of that name is among them."""
    return any(key.name == name for key in rows)


def _key_line(key: Key, chance: Random, wrong: float) -> str:
    value = words.any_value(chance) if chance.random() < wrong else _sound(key, chance)
    return f"{key.name} = {value}"


def _sound(key: Key, chance: Random) -> str:
    """A value within the key's bounds, mostly."""
    kinds = {"backfill": "resin", "shell": "shell"}
    if key.kind in _OF_KIND:
        return _OF_KIND[key.kind](key, chance)
    if kinds.get(key.name, key.name) in library().sheets:
        return quoted(chance.choice((*library().sheets[kinds.get(key.name, key.name)], "none", "our-own")))
    return (
        quoted(chance.choice((*shipped("originals"), "moon rock"))) if key.name == "material" else _within(key, chance)
    )


def _nested(key: Key, chance: Random) -> str:
    """A table, or a list of them, with sound values, mostly; levels go up."""
    made = []
    for n in range(1 if key.kind is ValueKind.RECORD else chance.randint(1, 5)):
        rows = [k for k in record_keys()[key.of].values() if k.required or chance.random() < 0.4]
        lines = [f"{k.name} = {quoted(f'{n * 30} mm') if k.name == 'at' else _sound(k, chance)}" for k in rows]
        made.append(f"{{{', '.join(lines)}}}")
    return made[0] if key.kind is ValueKind.RECORD else f"[{', '.join(made)}]"


def _coats(chance: Random) -> str:
    """Coats, some of them with names that are words of ours."""
    ours = ("detail", "skin", "fill", "back-fill", "flange", "coat", "Detail coat", "a", "glove", "mix")
    thick = [f"{chance.choice((0.2, 0.6, 1, 2.5, 9))} mm" for _ in range(chance.randint(1, 5))]
    names = chance.sample(ours, len(thick))
    return (
        f"[{', '.join(f'{{name = {quoted(n)}, thickness = {quoted(t)}}}' for n, t in zip(names, thick, strict=True))}]"
    )


def _within(key: Key, chance: Random) -> str:
    if key.low is None or key.high is None:
        return quoted(str(key.example))
    scale, unit = (100.0, "%") if key.kind is ValueKind.SHARE else (1.0, key.unit)
    return quoted(f"{chance.uniform(key.low, min(key.high, key.low * 9 + 9)) * scale:.4g} {unit}")


_OF_KIND = {
    ValueKind.CHOICE: lambda key, chance: quoted(chance.choice(key.choices)),
    ValueKind.SWITCH: lambda key, chance: chance.choice(("true", "false")),
    ValueKind.COUNT: lambda key, chance: str(
        chance.choice((key.low, key.high, chance.randint(int(key.low or 0), int(key.high or 9)), 2))
    ),
    ValueKind.COATS: lambda key, chance: _coats(chance),
    ValueKind.DIRECTION: lambda key, chance: chance.choice(('"+z"', '"-y"', "[0, 0, 1]", "[0.1, 2, -3.5]", '"x"')),
    ValueKind.NAMES: lambda key, chance: toml_value([f"photo-{n}.jpg" for n in range(chance.randint(1, 4))]),
    ValueKind.LENGTHS: lambda key, chance: toml_value([f"{n * chance.randint(1, 90)} mm" for n in range(1, 5)]),
    ValueKind.RECORD: _nested,
    ValueKind.RECORDS: _nested,
}


def _price(chance: Random, wrong: float) -> str:
    return (
        words.any_value(chance) if chance.random() < wrong else f'"{chance.randint(0, 999)}.{chance.randint(10, 99)}"'
    )


def _ids(chance: Random) -> list[str]:
    known = [id_ for rows in library().sheets.values() for id_ in rows]
    return [chance.choice(known) for _ in range(chance.randint(0, 3))]


def _sheet(chance: Random) -> Case:
    order = BASE + '[shop]\nsheets = "sheets"\n'
    if chance.random() < 0.15:
        return Case(order.encode(), chance.choice(examples("sheet")).encode())
    wrong, rows, used = chance.choice(SHARES), [], []
    for _ in range(chance.choice((1, 1, 2, 5))):
        kind = chance.choice(list(kind_rules()))
        id_ = chance.choice((*library().sheets[kind], "our-own", "skin", "none"))
        used.append((kind, id_))
        rows.append(f"[{_key_name(chance, [kind]) if chance.random() < wrong else kind}.{id_}]")
        rows += _sheet_rows(kind, chance, wrong)
    for kind, id_ in used:
        if kind in ("rubber", "shell"):
            order += f'[mold]\n{kind} = "{id_}"\n' if "[mold]" not in order else ""
        elif kind in ("resin", "powder"):
            order += f'[cast]\n{kind} = "{id_}"\n' if "[cast]" not in order else ""
    return Case(order.encode(), _text(rows, chance, wrong))


def _sheet_rows(kind: str, chance: Random, wrong: float) -> list[str]:
    rule, rows = kind_rules()[kind], []
    if chance.random() < 0.6:
        rows.append(f'like = "{chance.choice(list(library().sheets[kind]))}"')
    for key in chance.sample(rule.figures, chance.randint(0, min(6, len(rule.figures)))):
        rows.append(f"{key} = {words.any_value(chance) if chance.random() < wrong else _figure(key, chance)}")
    for key in (*COMMON, *rule.words, "weight_only"):
        if chance.random() < 0.12:
            rows.append(f"{key} = {words.any_value(chance) if chance.random() < wrong else _sheet_word(key, chance)}")
    if chance.random() < wrong:
        rows.append(f"{_key_name(chance, list(plain_keys()))} = {words.any_value(chance)}")
    return rows


def _figure(key: str, chance: Random) -> str:
    rule = figure_rules().get(key)
    if rule is None:
        return chance.choice(("[100, 10]", '"1:1"', "[1, 0]", '"100:90"', "[0.001, 100000]", "[100000, 0.001]"))
    values = sorted(
        chance.choice((rule.lowest, rule.highest, chance.uniform(rule.lowest, rule.highest))) for _ in range(3)
    )
    return chance.choice(
        (f"{values[1]:g}", f"[{values[0]:g}, {values[2]:g}]", f"[{', '.join(f'{v:g}' for v in values)}]")
    )


def _sheet_word(key: str, chance: Random) -> str:
    if key in ("tags", "cautions"):
        return f"[{quoted(chance.choice(('porous', 'foam', 'sulfur', 'Keep cold.', words.words(chance))))}]"
    if key == "hazards":
        return chance.choice(('["H317"]', '["H334", "H351"]', '["H9"]'))
    if key == "packs":
        amount, unit = chance.choice((1, 900, 0.5, 1e7)), chance.choice(("g", "each"))
        return f"[{{ amount = {amount}, unit = {quoted(unit)}, price = {quoted(str(chance.randint(0, 99)))} }}]"
    if key == "weight_only":
        return chance.choice(("true", "false"))
    known = shipped("schema")["words"].get(key, ())
    return quoted(chance.choice((*known, "Fast + clear urethane", words.words(chance))))


def _steps(chance: Random) -> Case:
    order = BASE + '[shop]\nsteps = "steps.toml"\n'
    if chance.random() < 0.1:
        return Case(order.encode(), steps=chance.choice(examples("steps")).encode())
    wrong = chance.choice(SHARES)
    ids = [sheet.id for sheet in step_sheets()]
    rows = []
    if chance.random() < 0.6:
        rows.append(f"drop = {_texts(chance, wrong, ids)}")
    if chance.random() < 0.6:
        rows.append("[retime]")
        rows += [f"{id_} = {_time(chance, wrong)}" for id_ in sorted(set(chance.choices(ids, k=chance.randint(0, 4))))]
    for _ in range(chance.choice((0, 1, 1, 3))):
        rows += ["[[add]]", f"after = {quoted(chance.choice(ids))}", *_added(chance, wrong)]
    return Case(order.encode(), steps=_text(rows, chance, wrong))


def _added(chance: Random, wrong: float) -> list[str]:
    rows = [f"title = {_title(chance, wrong)}", f"labor = {_minutes(chance, wrong)}"]
    if chance.random() < 0.4:
        rows.append(f"wait = {_minutes(chance, wrong)}")
    for key in ("needs", "do", "before", "cautions"):
        if chance.random() < 0.4:
            rows.append(f"{key} = {_texts(chance, wrong, ('Do it.',))}")
    if chance.random() < 0.3:
        per = quoted(chance.choice(("mold", "cast", "edition")))
        rows.append(f"per = {words.any_value(chance) if chance.random() < wrong else per}")
    if chance.random() < wrong:
        rows.append(f"{_key_name(chance, ['id', 'cautions', 'needs'])} = {words.any_value(chance)}")
    return rows


def _texts(chance: Random, wrong: float, known: list[str] | tuple[str, ...]) -> str:
    if chance.random() < wrong:
        return words.any_value(chance)
    return "[" + ", ".join(f'"{chance.choice(known)}"' for _ in range(chance.randint(0, 3))) + "]"


def _title(chance: Random, wrong: float) -> str:
    return (
        words.any_value(chance)
        if chance.random() < wrong
        else f'"Look {chance.randint(1, 99999)} {words.words(chance, 4)}"'
    )


def _minutes(chance: Random, wrong: float) -> str:
    time = quoted(f"{chance.choice((0, 1, 20, 90, 600))} min")
    return words.any_value(chance) if chance.random() < wrong else time


def _time(chance: Random, wrong: float) -> str:
    if chance.random() < 0.5:
        return _minutes(chance, wrong)
    return f'{{ labor = {_minutes(chance, wrong)}, wait = ["0 min", {_minutes(chance, wrong)}, "30 h"] }}'


def _key_name(chance: Random, known: list[str]) -> str:
    name = chance.choice(known)
    place = chance.randrange(len(name) + 1)
    slips = (name[:place] + chance.choice("aeiouxz-_") + name[place:], name[:place] + name[place + 1 :] or "x")
    dots = ".".join([name] * chance.choice((2, 5, 13, 4000)))
    strange = (
        quoted(words.words(chance)),
        quoted(words.long_text(chance)),
        f"{quoted(name)}.{quoted(name)}",
        "k" * 5000,
    )
    return chance.choice((name, *slips, name.upper(), dots, *strange))


def _text(rows: list[str], chance: Random, wrong: float) -> bytes:
    """The rows as a file: with the line ends, marks and comments that editors leave."""
    if chance.random() < wrong:
        thrown = chance.choice((*rows, "[", "= 1", "[[x]]", "[a.b]", "\x00", "#" * 300_000))
        rows.insert(chance.randrange(len(rows) + 1), thrown)
    strange = chance.random() < wrong
    ends = chance.choice(("\r", "\n\n", "\u2028", "\x0b\n") if strange else ("\n", "\n", "\r\n"))
    mark = "\ufeff" if chance.random() < 0.05 else ""
    return (mark + ends.join(rows) + ends).encode("utf-8", "surrogatepass")


def _mutated(raw: bytes, chance: Random) -> bytes:
    """A few bytes changed, cut out, doubled or thrown in."""
    made = bytearray(raw)
    for _ in range(chance.choice((1, 1, 2, 5, 30))):
        at, size = chance.randrange(len(made) + 1), chance.choice((1, 1, 3, 40))
        form = chance.randrange(4)
        if form == 0:
            del made[at : at + size]
        elif form == 1:
            made[at:at] = made[at : at + size] * chance.choice((1, 2, 50))
        elif form == 2:
            made[at:at] = chance.choice(THROWN)
        elif made:
            made[min(at, len(made) - 1)] ^= 1 << chance.randrange(8)
    return bytes(made)


@lru_cache(maxsize=3)
def examples(what: str) -> tuple[str, ...]:
    """What the package and its documents show: "commission", "sheet" or "steps".

    Parameters
    ----------
    what : which of them.
    """
    page = {"commission": "commission", "sheet": "own-sheet", "steps": "steps"}[what]
    shown = re.findall(
        r"```toml\n(.*?)```", (ROOT / "docs" / f"{page}.md").read_text(encoding="utf-8"), flags=re.DOTALL
    )
    if what == "commission":
        shown.append(files("moldwright.making.demo").joinpath("commission.toml").read_text(encoding="utf-8"))
    if what == "sheet":
        folder = files("moldwright.materials").joinpath("data")
        shown += [folder.joinpath(f"{name}.toml").read_text(encoding="utf-8") for name in SHEET_FILES]
    return tuple(shown)
