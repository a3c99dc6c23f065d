"""A seam drawn from the printed table, and from the full-size views, lies on the computed one: within 3 mm at 95 %.

The small figure, by its plan alone: texts after their rounding, metric and US. Real meshes: `tests/validation`.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from conftest import Job
from seam_by_hand import from_the_table, from_the_views

from moldwright.units.system import UnitSystem


@pytest.mark.parametrize("units", UnitSystem)
def test_from_the_table(small_job: Job, units: UnitSystem) -> None:
    plan, shell = replace(small_job.planned.plan, units=units), small_job.planned.solids.shell.value
    rubber_mm, flange_mm = from_the_table(plan, shell.seam, shell.gloved)
    assert rubber_mm <= 3.0
    assert flange_mm <= 3.0


def test_from_the_full_size_views(small_job: Job) -> None:
    shell = small_job.planned.solids.shell.value
    assert from_the_views(small_job.planned.plan, shell.seam, shell.gloved) <= 3.0


def test_the_check_finds_a_station_that_is_wrong(small_job: Job) -> None:
    """Every offset told to the wrong side of its plumb line is found."""
    plan, shell = small_job.planned.plan, small_job.planned.solids.shell.value
    lines = tuple(
        replace(line, stations=tuple(replace(each, aside_mm=-each.aside_mm) for each in line.stations))
        for line in plan.shell.seam_line.lines
    )
    wrong = replace(plan, shell=replace(plan.shell, seam_line=replace(plan.shell.seam_line, lines=lines)))
    assert from_the_table(wrong, shell.seam, shell.gloved)[0] > 3.0
