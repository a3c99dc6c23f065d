"""The steps of the work: written from data with this job's quantities, then made the maker's own."""

from __future__ import annotations

from moldwright.steps.cautions import LIFT_FROM_KG
from moldwright.steps.written import Work, work, work_steps

__all__ = ["LIFT_FROM_KG", "Work", "work", "work_steps"]
