"""What runs weighed of the lots, added up by the database from the columns of the weighings."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence

from sqlalchemy import CTE, BigInteger, Connection, Select, String, and_, column, func, or_, select, values

from moldwright.log.ids import LotId, SubjectId
from moldwright.records.stock.lot import Moment
from moldwright.records.store.tables import EVENT

AT_ONCE = 2000
"""Lots of one statement: three parameters each, and SQLite takes some thirty thousand."""
Step = tuple[int, int]
"""From when on, and how long each of the spans is, in milliseconds."""
Sums = dict[LotId, dict[int, float]]
"""Grams by lot and span."""
WHOLE: Step = (0, 1 << 50)
"""One span that holds all there ever is."""


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
        part = lots[start : start + AT_ONCE]
        for lot, span, mass_g in connection.execute(_summed(part, step)):
            found[LotId(SubjectId(lot))][int(span)] += float(mass_g)
    for lot, span, mass_g in _struck(connection, since, step):
        found[lot][span] -= mass_g
    return {lot: dict(spans) for lot, spans in found.items()}


def _summed(part: Sequence[tuple[LotId, Moment]], step: Step) -> Select[str, int, float]:
    """Sums of all weighings, those that a line goes through still among them: they are few, and looked up apart."""
    since = _since(part)
    span = ((EVENT.c.at_ms - step[0]) // step[1]).label("span")
    later = or_(EVENT.c.at_ms > since.c.at_ms, and_(EVENT.c.at_ms == since.c.at_ms, EVENT.c.id > since.c.id))
    order = select(since.c.lot, span, func.sum(EVENT.c.mass_g)).join(EVENT, EVENT.c.lot == since.c.lot)
    order = order.where(EVENT.c.at_ms >= since.c.at_ms, EVENT.c.at_ms >= step[0], later)
    return order.group_by(since.c.lot, span)


def _since(part: Sequence[tuple[LotId, Moment]]) -> CTE:
    lot, at_ms, id_ = column("lot", String(36)), column("at_ms", BigInteger), column("id", String(36))
    return values(lot, at_ms, id_, name="since").data([(each, *moment) for each, moment in part]).cte()


def _struck(connection: Connection, since: Mapping[LotId, Moment], step: Step) -> Iterable[tuple[LotId, int, float]]:
    """Weighings that a line goes through, each once however often it was struck out."""
    lines = select(EVENT.c.undoes).where(EVENT.c.undoes.is_not(None)).distinct().cte("lines")
    order = select(EVENT.c.lot, EVENT.c.at_ms, EVENT.c.id, EVENT.c.mass_g).join(lines, EVENT.c.id == lines.c.undoes)
    for lot, at_ms, id_, mass_g in connection.execute(order.where(EVENT.c.lot.is_not(None))):
        if at_ms >= step[0] and lot in since and (at_ms, id_) > since[LotId(SubjectId(lot))]:
            yield LotId(SubjectId(lot)), (at_ms - step[0]) // step[1], mass_g
