"""From the text of a commission to the order: unknown keys, wrong kinds and impossible values are refused."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from moldwright.commission.coats import check_coats
from moldwright.commission.keys import ORDERS, keys, nearest
from moldwright.commission.orders import Commission, MoldOrder
from moldwright.commission.refusals import wrong_type
from moldwright.commission.values import LONGEST_WORD, is_word, money, value_of
from moldwright.errors import InputRefused
from moldwright.text.shown import kind_of, short
from moldwright.text.toml import toml_tables, toml_value
from moldwright.ways import Deed, named_key, writes

LONGEST, MOST_PRICES = 200_000, 1000
TABLES = (*ORDERS, "prices")
SOURCES = ("file", "photos", "tape", "displaced", "weight")
"""The keys of [original] that it can be known by; one at least is needed."""


def commission_from_toml(text: str) -> Commission:
    """Read a commission; what is left out keeps its default, and `given` tells which keys were written.

    Parameters
    ----------
    text : the commission as TOML, at most 200,000 characters.

    >>> order = commission_from_toml('[original]\\nfile = "a.stl"\\nheight = "8 in"')
    >>> round(order.original.height_mm, 1), order.given
    (203.2, ('original.file', 'original.height'))
    """
    tables = _tables(text)
    _refuse_without_source(tables.get("original", {}))
    orders = {name: ORDERS[name](**_values(name, tables.get(name, {}))) for name in ORDERS}
    orders["mold"] = _agreed(orders["mold"], "thickness" in tables.get("mold", {}))
    written = tuple(f"{t}.{k}" for t in TABLES for k in tables.get(t, {}))
    return Commission(**orders, prices=_prices(tables.get("prices", {})), given=tuple(sorted(written)))


def _tables(text: str) -> dict[str, dict[str, Any]]:
    tables = toml_tables(text, "commission", "commission-not-toml", LONGEST)
    for name, table in tables.items():
        if name not in TABLES:
            raise _unknown_table(name)
        if not isinstance(table, dict):
            remedy = f"Write [{name}] on a line of its own."
            raise InputRefused("wrong-type", f"{name} is {kind_of(table)}", "a table", "", remedy)
    return tables


def _refuse_without_source(original: dict[str, Any]) -> None:
    """A misspelled one is told as such by the table's reading; none of them at all is refused here."""
    known = keys()["original"]
    if set(SOURCES) & set(original) or set(original) - set(known):
        return
    file, *others = (f"{name} = {toml_value(known[name].example)}" for name in SOURCES if name != "tape")
    remedy = f"Write {file} under [original], the scan; or {', or '.join(others)}, or an [original.tape] with levels."
    limit = " or ".join(known[name].dotted for name in SOURCES)
    told = "original.file, photos, tape, displaced and weight are all left out"
    raise InputRefused("key-missing", told, limit, "", remedy)


def _unknown_table(name: str) -> InputRefused:
    home = next((f"{t}.{name}" for t in ORDERS if name in keys()[t]), "")
    near = nearest(name, TABLES) or home
    if near == home and home:
        return InputRefused("unknown-key", short(name), home, "", f"Write {name} under [{home.partition('.')[0]}].")
    hint = f"Did you mean [{near}]? " if near else ""
    return InputRefused(
        "unknown-table", short(name), near or ", ".join(TABLES), "", f"{hint}Known: {', '.join(TABLES)}."
    )


def _values(table: str, written: dict[str, Any]) -> dict[str, Any]:
    known = keys()[table]
    for name in written:
        if name not in known:
            raise _unknown_key(table, name)
    for name in written:
        if (needed := known[name].needs) and needed not in written:
            lacking = known[needed]
            told = f"{named_key(known[name].dotted)} says nothing without {named_key(lacking.dotted)}"
            other = writes(lacking.dotted, toml_value(lacking.example))
            remedy = f"Write {other} too, or leave {named_key(known[name].dotted)} out."
            raise InputRefused("key-missing", told, named_key(lacking.dotted), "", remedy)
    return {known[name].field: value_of(known[name], value) for name, value in written.items()}


def _unknown_key(table: str, name: str) -> InputRefused:
    near = nearest(name, keys()[table])
    if near:
        return InputRefused("unknown-key", f"{table}.{short(name)}", f"{table}.{near}", "", f"Did you mean {near}?")
    other = next((f"{t}.{name}" for t in ORDERS if name in keys()[t]), "")
    if other:
        remedy = f"{name} belongs under [{other.partition('.')[0]}]."
        return InputRefused("unknown-key", f"{table}.{name}", other, "", remedy)
    everywhere = {k: f"{t}.{k}" for t in ORDERS for k in keys()[t]}
    far = everywhere.get(nearest(name, everywhere), "")
    hint = f"Did you mean {far}? " if far else ""
    known = ", ".join(keys()[table])
    return InputRefused("unknown-key", f"{table}.{short(name)}", far or known, "", f"{hint}[{table}] knows: {known}.")


def _agreed(mold: MoldOrder, thickness_given: bool) -> MoldOrder:
    """Coats and thickness say the same; coats make the thickness."""
    if not mold.coats:
        return mold
    return replace(mold, thickness_mm=check_coats(mold.coats, mold.thickness_mm if thickness_given else None))


def _prices(written: dict[str, Any]) -> tuple[tuple[str, Any], ...]:
    if len(written) > MOST_PRICES:
        raise InputRefused("value-out-of-range", len(written), MOST_PRICES, "prices", "Leave out what you do not use.")
    for name, value in written.items():
        if not is_word(name):
            limit = f"a material's id, at most {LONGEST_WORD} characters"
            remedy = "Write the id of a material before its price"
            raise InputRefused("text-unusable", f"prices.{short(name)}", limit, "", remedy, Deed.SEE_MATERIALS)
        if isinstance(value, dict):
            raise wrong_type(f"prices.{name}", value, 'a price as text, such as "14.50"', "14.50")
    return tuple(sorted((name, money(f"prices.{name}", value)) for name, value in written.items()))
