"""A draft, its look and its check, as the page and its element are told them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from moldwright.errors import MoldwrightError
from moldwright.units import show_length
from moldwright.units.system import UnitSystem
from moldwright.ways import Change
from moldwright.web.long_work.queue import WorkQueue
from moldwright.web.long_work.told import work_told
from moldwright.web.pages.take_in.check import CheckedAnswers
from moldwright.web.pages.take_in.looked import LookSoFar
from moldwright.web.refusals import said
from moldwright.web.words.named import called
from moldwright.words.speaker import say_count


def check_told(checked: CheckedAnswers, look: LookSoFar) -> dict[str, Any]:
    """What is wrong, what can ruin the job, and whether it can be taken in.

    Parameters
    ----------
    checked : what was answered.
    look : what the look still asks.
    """
    wrong = [wrong_told(each.key, each.error) for each in checked.wrong]
    if look.asked is not None and not wrong:
        wrong = [wrong_told("", look.asked)]
    return {
        "wrong": wrong,
        "cautions": [{"severity": severity, "text": text} for severity, text in checked.cautions],
        "rubber": checked.rubber,
        "ready": not wrong,
    }


def look_told(work: WorkQueue, look: LookSoFar, units: UnitSystem) -> dict[str, Any]:
    """The look as the page shows it.

    Parameters
    ----------
    work : the queue.
    look : the last one.
    units : of who reads.
    """
    job, result = look.job, look.result
    figures: Any = result.get("figures", [])
    return {
        "job": work_told(work, job) if job is not None else None,
        "holds": look.holds,
        "result": result,
        "figures": figures[units.value] if isinstance(figures, Mapping) else figures,
        "asked": look.asked,
        "sizes": [
            {"unit": each["unit"], "tall": show_length(each["height_mm"], units)} for each in result.get("sizes", ())
        ],
    }


def photos_here(count: int) -> str:
    """How many photos there are, "" for none.

    Parameters
    ----------
    count : so many.
    """
    return say_count("{num} photo is here.", "{num} photos are here.", count, num=count) if count else ""


def wrong_told(key: str, error: MoldwrightError) -> dict[str, str]:
    """A refusal, which answer it is about, and what may be written there.

    Parameters
    ----------
    key : of the answer, "" where the refusal itself names it.
    error : the refusal.
    """
    to = ""
    if isinstance(error.way, Change):
        key, to = error.way.key, str(error.way.to)
    about = _most_exact(key, error.keys())
    return {"key": about, "field": called(about) if about else "", "to": to, "code": error.code, **said(error)}


def _most_exact(key: str, named: Sequence[str]) -> str:
    """The key, or the first that goes deepest of those named under it: a row's cell in place of its table."""
    first = key or next(iter(named), "")
    under = [first, *(each for each in named if each.startswith(first))]
    return max(under, key=lambda each: each.count(".") + each.count("["))
