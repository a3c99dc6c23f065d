"""A whole store looked at. Nothing in it is changed, not even brought forward."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import func, select

from moldwright.errors import InputRefused, RecordConflict
from moldwright.records.check.database import database_cases
from moldwright.records.check.events import event_cases, line_cases
from moldwright.records.check.finding import Amiss, Finder, Found, Gravity, ShopFinding, gathered
from moldwright.records.check.kept import file_cases, number_cases, plan_cases
from moldwright.records.shop import Shop, files_beside
from moldwright.records.store.engine import engine_for
from moldwright.records.store.faults import DAMAGED, name_of
from moldwright.records.store.schema import newest, version_of
from moldwright.records.store.tables import EVENT

FINDERS: tuple[Finder, ...] = (database_cases, event_cases, line_cases, plan_cases, number_cases, file_cases)
"""Each looks at one part; what one cannot look at, the others still do."""


@dataclass(frozen=True, slots=True)
class ShopCheck:
    """What was found in a store. `events`, `subjects`: how many; None where they cannot be counted."""

    shop: str
    version: str
    events: int | None
    subjects: int | None
    findings: tuple[ShopFinding, ...]

    @property
    def sound(self) -> bool:
        """Whether nothing in it contradicts anything."""
        return all(finding.kind.gravity is not Gravity.CONTRADICTION for finding in self.findings)


def checked(place: str, files: Path | None = None, finders: Sequence[Finder] = FINDERS) -> ShopCheck:
    """Look at all of a store.

    Parameters
    ----------
    place : a file's path, or PostgreSQL's URL.
    files : the folder of its files; left out, the one beside its file.
    finders : what looks at it.

    Raises InputRefused where there is no store to look at ("shop-missing", "shop-foreign", "shop-newer"), or where it
    does not open at all.
    """
    if "://" not in place and not Path(place).is_file():
        raise InputRefused("shop-missing", place, "a shop's records", "", "Name the file that holds them.")
    with closing(Shop(engine_for(place), files or files_beside(place))) as shop:
        try:
            return _checked(shop, finders)
        except InputRefused as refused:
            if refused.code != DAMAGED.code:
                raise
            cases = [(Amiss.DATABASE, "it does not even open")]
            return ShopCheck(name_of(shop.engine), "", None, None, gathered(cases))


def _checked(shop: Shop, finders: Sequence[Finder]) -> ShopCheck:
    with shop.reading() as connection:
        version = version_of(connection)
    if not version:
        raise InputRefused("shop-missing", name_of(shop.engine), "a shop's records", "", "It is empty: name another.")
    cases = [case for finder in finders for case in _safely(finder, shop)] if version == newest() else []
    if version != newest():
        cases = [(Amiss.OLDER, f"version {version}, now {newest()}"), *_safely(database_cases, shop)]
    return ShopCheck(name_of(shop.engine), version, *_counts(shop), gathered(cases))


def _safely(finder: Finder, shop: Shop) -> Iterator[Found]:
    """What a finder tells; where the store ends its looking, that is a case."""
    try:
        yield from finder(shop)
    except (InputRefused, RecordConflict) as refused:
        yield (Amiss.DATABASE if refused.code == DAMAGED.code else Amiss.UNSEEN), f"{refused.code}: {refused.actual}"


def _counts(shop: Shop) -> tuple[int | None, int | None]:
    try:
        with shop.reading() as connection:
            counted = select(func.count(), func.count(EVENT.c.subject.distinct())).select_from(EVENT)
            events, subjects = connection.execute(counted).one()
            return events, subjects
    except InputRefused:
        return None, None
