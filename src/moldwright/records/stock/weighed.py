"""What runs weighed of the lots, added up by the database from the columns of the weighings."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from sqlalchemy import Connection, select

from moldwright.log.ids import LotId, SubjectId
from moldwright.records.stock.lot import Moment
from moldwright.records.store.engine import SQLITE
from moldwright.records.store.tables import EVENT

AT_ONCE = 2000
"""Lots of one statement: three parameters each, and SQLite takes some thirty thousand."""
Step = tuple[int, int]
"""From when on, and how long each of the spans is, in milliseconds."""
Sums = dict[LotId, dict[int, float]]
"""Grams by lot and span."""
WHOLE: Step = (0, 1 << 50)
"""One span that holds all there ever is."""
SUMS = """
WITH since (lot, at_ms, id) AS (VALUES {since})
SELECT s.lot, (e.at_ms - {start:d}) / {length:d} AS span, SUM(e.mass_g)
FROM since s JOIN event e ON e.lot = s.lot
WHERE e.at_ms >= s.at_ms AND e.at_ms >= {start:d} AND (e.at_ms > s.at_ms OR e.id > s.id)
GROUP BY s.lot, span
"""
"""As text: a statement of thousands of moments takes longer to put together of parts than its sums to add up."""


def weighed_since(connection: Connection, since: Mapping[LotId, Moment]) -> dict[LotId, float]:
    """What runs weighed of each lot after its moment [g]; a lot of which nothing was weighed is left out.

    Parameters
    ----------
    connection : of `Shop.reading`.
    since : the moment of each lot.
    """
    return {lot: sum(spans.values()) for lot, spans in weighed_by(connection, since, WHOLE).items()}


def weighed_by(connection: Connection, since: Mapping[LotId, Moment], step: Step) -> Sums:
    """What runs weighed of each lot after its moment, in spans that are counted from 0 on [g].

    Parameters
    ----------
    connection : of `Shop.reading`.
    since : the moment of each lot.
    step : where the first span begins, and how long each is; what was before counts in none.
    """
    found: dict[LotId, dict[int, float]] = defaultdict(lambda: defaultdict(float))
    lots = list(since.items())
    for start in range(0, len(lots), AT_ONCE):
        for lot, span, mass_g in _summed(connection, lots[start : start + AT_ONCE], step):
            found[lot][span] += mass_g
    for lot, span, mass_g in _struck(connection, since, step):
        found[lot][span] -= mass_g
    return {lot: dict(spans) for lot, spans in found.items()}


def _summed(
    connection: Connection, part: Sequence[tuple[LotId, Moment]], step: Step
) -> Iterator[tuple[LotId, int, float]]:
    """Sums of all weighings, those that a line goes through still among them: they are few, and looked up apart."""
    one = "?" if connection.dialect.name == SQLITE else "%s"
    first = f"(CAST({one} AS VARCHAR), CAST({one} AS BIGINT), CAST({one} AS VARCHAR))"
    values = ", ".join([first, *([f"({one}, {one}, {one})"] * (len(part) - 1))])
    words = SUMS.format(since=values, start=step[0], length=step[1])
    told = tuple(each for lot, moment in part for each in (lot, *moment))
    for lot, span, mass_g in connection.exec_driver_sql(words, told):
        yield LotId(SubjectId(lot)), int(span), float(mass_g)


def _struck(connection: Connection, since: Mapping[LotId, Moment], step: Step) -> Iterator[tuple[LotId, int, float]]:
    """Weighings that a line goes through, each once however often it was struck out."""
    lines = select(EVENT.c.undoes).where(EVENT.c.undoes.is_not(None)).distinct().cte("lines")
    order = select(EVENT.c.lot, EVENT.c.at_ms, EVENT.c.id, EVENT.c.mass_g).join(lines, EVENT.c.id == lines.c.undoes)
    for told, at_ms, id_, mass_g in connection.execute(order.where(EVENT.c.lot.is_not(None))):
        lot = LotId(SubjectId(told))
        if lot in since and at_ms >= step[0] and (at_ms, id_) > since[lot]:
            yield lot, (at_ms - step[0]) // step[1], mass_g
