"""How a stock goes down: worked by hand."""

from __future__ import annotations

from dataclasses import replace

from moldwright.log.ids import LotId, SubjectId
from moldwright.log.lot_events import Stuff
from moldwright.plan.needs import NeedUnit
from moldwright.records.stock.course import course_of
from moldwright.records.stock.forecast import Outlook, Unused
from moldwright.records.stock.rate import Lasts, WeeklyUse

STEADY = Outlook(
    Stuff("powder", "bronze"), NeedUnit.GRAM, 650.0, 0.0, (), WeeklyUse(52, 100.0, 0.0), Lasts(6.5, 6.5, 6.5), None, ()
)


def test_a_steady_use_takes_as_much_every_week() -> None:
    """650 g at 100 g a week: 650, 550 ... 50, and nothing in the seventh week."""
    course = course_of(STEADY, "2026-01-01")
    assert [then.left.likely for then in course] == [650.0, 550.0, 450.0, 350.0, 250.0, 150.0, 50.0, 0.0]
    assert all(then.left.low == then.left.likely == then.left.high for then in course)
    assert [then.day for then in course[:2]] == ["2026-01-01", "2026-01-08"]


def test_what_expires_unused_is_gone_after_its_day() -> None:
    """200 g of it expire on the tenth: two weeks on 650 - 200 - 200 are left."""
    expiring = replace(STEADY, unused=(Unused(LotId(SubjectId("x")), "2026-01-10", 200.0),))
    assert [then.left.likely for then in course_of(expiring, "2026-01-01")][:3] == [650.0, 550.0, 250.0]


def test_of_what_nobody_uses_nothing_is_drawn() -> None:
    assert course_of(replace(STEADY, use=None), "2026-01-01") == ()
    assert course_of(replace(STEADY, use=WeeklyUse(52, 0.0, 0.0)), "2026-01-01") == ()
