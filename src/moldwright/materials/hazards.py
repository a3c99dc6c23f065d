"""What a sheet warns of: its own words, those of its class, and the texts of its hazard statements."""

from __future__ import annotations

from moldwright.errors import InputRefused
from moldwright.materials.kinds import Sheet, TwoPart
from moldwright.materials.nearest import did_you_mean
from moldwright.materials.shipped import shipped


def statement(code: str) -> str:
    """The text of a hazard statement.

    Parameters
    ----------
    code : an H code of the GHS.

    >>> statement("H317")
    'May cause an allergic skin reaction'

    Source: Globally Harmonized System of classification and labelling, annex 3 (texts from memory).
    """
    known: dict[str, str] = shipped("hazards")["statements"]
    if code not in known:
        raise InputRefused("unknown-hazard", code[:20], remedy=did_you_mean(code, known))
    return known[code]


def cautions_for(sheet: Sheet) -> tuple[str, ...]:
    """What stands on a step that uses the material: what to do, its hazard statements, and whose word stands above.

    Parameters
    ----------
    sheet : any sheet of the library.

    >>> from moldwright.materials import library
    >>> cautions_for(library().consumable("isopropanol"))[-2]
    'H336: May cause drowsiness or dizziness.'

    Source: GHS statements; the shop's cautions: common practice, no source. Nothing here says that anything is safe.
    """
    texts = [f"{code}: {statement(code)}." for code in sheet.hazards]
    return (*sheet.cautions, *tag_cautions(sheet), *texts, deference())


def short_statements(sheet: Sheet) -> str:
    """The sheet's hazard codes with a few words each, for a step where the full statements have been told before.

    Parameters
    ----------
    sheet : any sheet of the library; "" where it has no hazard statement.

    >>> from moldwright.materials import library
    >>> short_statements(library().consumable("isopropanol"))
    'H225 liquid and vapor light easily, H319 irritates eyes, H336 drowsiness.'

    Source: own short words for the GHS statements; they do not replace them.
    """
    short: dict[str, str] = shipped("hazards")["short"]
    return ", ".join(f"{code} {short[code]}" for code in sheet.hazards) + ("." if sheet.hazards else "")


def full_statements(sheet: Sheet) -> str:
    """The sheet's hazard statements in full; "" where it has none.

    Parameters
    ----------
    sheet : any sheet of the library.

    >>> from moldwright.materials import library
    >>> full_statements(library().powder("aluminum"))[:22]
    'H228: Flammable solid.'

    Source: GHS, annex 3 (texts from memory).
    """
    return " ".join(f"{code}: {statement(code)}." for code in sheet.hazards)


def tag_cautions(sheet: Sheet) -> tuple[str, ...]:
    """What the shop does about what a sheet is tagged with: "Metal dust: fitted dust mask, ...".

    Parameters
    ----------
    sheet : any sheet of the library.

    Source: common practice, no source.
    """
    by_tag: dict[str, str] = shipped("hazards")["by_tag"]
    return tuple(by_tag[tag] for tag in by_tag if tag in _tags(sheet))


def deference() -> str:
    """The sentence that names what stands above the software's word."""
    text: str = shipped("hazards")["deference"]["text"]
    return text


def _tags(sheet: Sheet) -> frozenset[str]:
    implied: dict[str, list[str]] = shipped("compatibility")["implied"]
    if not isinstance(sheet, TwoPart):
        return frozenset(sheet.tags)
    isocyanate = ("isocyanate",) if sheet.isocyanate_part else ()
    return frozenset((*sheet.tags, *isocyanate, *implied.get(sheet.chemistry, ())))
