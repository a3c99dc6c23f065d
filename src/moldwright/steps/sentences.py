"""Every sentence of the plan by its key, with the places of its quantities: what sheets and desk print from."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache
from types import MappingProxyType

from moldwright.materials.hazards import deference, tag_words
from moldwright.materials.rules import rule_words
from moldwright.steps.sheet import DEFER, CautionSheet, Listed, Sentence, caution_sheet, read_data, step_sheets


@cache
def sentences() -> Mapping[str, str]:
    """All sentences by key.

    >>> sentences()["receive.title"]
    'Inspect and photograph the original'
    """
    return MappingProxyType({**_of_steps(), **_of_rules(), **_of_hazards(), **read_data("job_cautions")["say"]})


@cache
def needs_listed(listed: Listed) -> frozenset[str]:
    """Keys of the needs that the shopping list has as its rows, or as small things behind them.

    Parameters
    ----------
    listed : where.

    >>> "release.needs.1" in needs_listed(Listed.ROW), "release.needs.3" in needs_listed(Listed.SHOP)
    (True, True)
    """
    return frozenset(need.key for sheet in step_sheets() for need in sheet.needs if need.listed is listed)


def _of_steps() -> dict[str, str]:
    found = {sentence.key: sentence.text for sentence in _every()}
    return found | {f"caution.{DEFER}": str(read_data("cautions")["defer"])}


def _every() -> Iterable[Sentence]:
    for sheet in step_sheets():
        yield from (sheet.title, sheet.plain, *sheet.titles, *sheet.needs, *sheet.do, *sheet.before, *sheet.write)
        for own in sheet.cautions:
            yield from _both(own)
    for rule, base in read_data("cautions")["caution"].items():
        yield from _both(caution_sheet(rule, "caution", base, {}))


def _both(caution: CautionSheet) -> tuple[Sentence, ...]:
    return (caution.full,) if caution.again is None else (caution.full, caution.again)


def _of_rules() -> dict[str, str]:
    words = rule_words().items()
    reasons = {f"rule.{id_}.reason": said.reason for id_, said in words}
    return reasons | {f"rule.{id_}.remedy": said.remedy for id_, said in words}


def _of_hazards() -> dict[str, str]:
    tags = {f"hazard.tag.{tag}": text for tag, text in tag_words().items()}
    return tags | {"hazard.defer": deference()}
