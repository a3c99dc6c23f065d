"""What a sheet warns of: its own words, those of its class, and the texts of its hazard statements."""

from __future__ import annotations

from collections.abc import Mapping

from moldwright.errors import InputRefused
from moldwright.materials.kinds import Sheet
from moldwright.materials.nearest import did_you_mean
from moldwright.materials.rules import implied_traits
from moldwright.materials.shipped import shipped
from moldwright.words.speaker import say


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
    texts = [f"{code}: {say(statement(code))}." for code in sheet.hazards]
    own = (*sheet.cautions, *(tag_words()[tag] for tag in hazard_tags(sheet)))
    return (*map(say, own), *texts, say(deference()))


def short_statement(code: str) -> str:
    """A few words for a hazard statement that has been told in full before.

    Parameters
    ----------
    code : an H code of the GHS.

    >>> short_statement("H336")
    'drowsiness'

    Source: own short words for the GHS statements; they do not replace them.
    """
    short: dict[str, str] = shipped("hazards")["short"]
    return short[code]


def hazard_tags(sheet: Sheet) -> tuple[str, ...]:
    """The tags of a sheet about which the shop does something, in the data's order; `tag_words` says what.

    Parameters
    ----------
    sheet : any sheet of the library.

    >>> from moldwright.materials import library
    >>> hazard_tags(library().powder("bronze"))
    ('metal',)

    Source: common practice, no source.
    """
    tags = {*sheet.tags, *implied_traits(sheet)}
    return tuple(tag for tag in tag_words() if tag in tags)


def tag_words() -> Mapping[str, str]:
    """What the shop does about each tag: "Metal dust: fitted dust mask, ...".

    Source: common practice, no source.
    """
    by_tag: dict[str, str] = shipped("hazards")["by_tag"]
    return by_tag


def deference() -> str:
    """The sentence that names what stands above the software's word."""
    text: str = shipped("hazards")["deference"]["text"]
    return text
