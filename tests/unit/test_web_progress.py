"""One bar goes on over all stages of long work: it never goes back, and knows every stage that is told.

Source: common practice, no source; the stages' names are read from the source's own calls.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import moldwright
from moldwright.records.clock import now_ms
from moldwright.web.long_work.job import JobId, LongJob, WorkKind, WorkState
from moldwright.web.long_work.stages import WholeCourse, courses
from moldwright.web.long_work.told import clock_told

PACKAGE = Path(moldwright.__file__).parent
ROOMS = ("job", "mold", "original", "photos", "tape", "making/files", "making/screen", "web/long_work/kinds")
ALL = [(kind, course) for kind in WorkKind for course in courses(kind)]
SINGLE = ("making/original.py", "making/order.py")


def told_stages() -> Iterator[str]:
    """Names in `progress("...", share)`, `Stage("path", "...")` and in a constant that begins with STAGE or is TOLD."""
    files = [file for room in ROOMS for file in (PACKAGE / room).rglob("*.py")] + [PACKAGE / name for name in SINGLE]
    for file in files:
        for node in ast.walk(ast.parse(file.read_text("utf-8"))):
            if isinstance(node, ast.Call):
                yield from _called(node)
            elif isinstance(node, ast.Assign):
                yield from _constant(node)


def _called(node: ast.Call) -> Iterator[str]:
    name = node.func.id if isinstance(node.func, ast.Name) else ""
    at = {"progress": 0, "Stage": 1}.get(name)
    if at is not None and len(node.args) > at:
        told = node.args[at]
        if isinstance(told, ast.Constant) and isinstance(told.value, str):
            yield told.value


def _constant(node: ast.Assign) -> Iterator[str]:
    """`A = "..."` and `A, B = "...", "..."`."""
    target = node.targets[0]
    names = target.elts if isinstance(target, ast.Tuple) else [target]
    values = node.value.elts if isinstance(node.value, ast.Tuple) else [node.value]
    for name, value in zip(names, values, strict=False):
        told = isinstance(name, ast.Name) and (name.id.startswith("STAGE") or name.id == "TOLD")
        if told and isinstance(value, ast.Constant) and isinstance(value.value, str):
            yield value.value


def test_every_stage_that_is_told_has_its_place() -> None:
    known = {stage for _, course in ALL for stage in course}
    told = {stage for stage in told_stages() if "." not in stage} - {"making the demo's original"}
    assert len(told) > 20
    assert told <= known
    assert known <= told


def test_the_bar_goes_on_over_stages_and_ends_whole() -> None:
    for kind, course in ALL:
        whole, shares = WholeCourse(kind), list[float]()
        for stage in course:
            shares += [whole.at(stage, share) for share in (0.0, 0.4, 0.2, 1.0)]
        assert shares == sorted(shares)
        assert shares[-1] == pytest.approx(1.0)


def test_a_stage_told_twice_or_by_nobody_known_never_takes_the_bar_back() -> None:
    course = courses(WorkKind.PLAN)[0]
    first, second, *_, last = course
    whole = WholeCourse(WorkKind.TRIAL)
    whole.at(first, 1.0)
    far = whole.at(second, 0.5)
    assert whole.at(first, 0.0) == far
    assert whole.at("polish the moon", 0.9) == far
    assert whole.at(last, 0.0) == pytest.approx(1.0 - course[last] / sum(course.values()))


def test_what_is_left_is_told_from_a_third_on_and_only_while_it_works() -> None:
    """Ten minutes for half of it: about ten more."""
    begun = now_ms() - 600_000
    job = LongJob(JobId("x"), WorkKind.PLAN, "Otter", "x", {}, begun, WorkState.WORKING, begun)
    assert clock_told(job, 0.2).startswith("10:0")
    assert "left" not in clock_told(job, 0.2)
    assert "about 10 min left" in clock_told(job, 0.5)
    assert "about a minute left" in clock_told(job, 0.99)
    assert "left" not in clock_told(job.ended(WorkState.DONE, begun + 600_000), 1.0)
