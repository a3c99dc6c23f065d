"""Molds for programs: as JSON tells them."""

from __future__ import annotations

from datetime import date
from typing import Any

from moldwright.log.codes import short_code
from moldwright.log.json_text import body_text
from moldwright.plan.json_text import tree_of
from moldwright.ranges import Range
from moldwright.records.molds.read import MoldKnown
from moldwright.records.molds.runs import MoldRun
from moldwright.records.molds.story import MoldStory
from moldwright.told.log_tree import entry_tree


def story_tree(story: MoldStory) -> dict[str, Any]:
    """A mold's whole story for programs.

    Parameters
    ----------
    story : it.
    """
    return {
        **mold_tree(story.known),
        "runs": [run_tree(run) for run in story.known.runs],
        "problems": [
            {"run": run.id, "at_ms": event.at_ms, "body": body_text(event.body)}
            for run in story.known.runs
            for event in run.problems
        ],
        "lots": [{"lot": lot.lot, "mass_g": lot.mass_g, "name": lot.name, "number": lot.number} for lot in story.lots],
        "log": [entry_tree(event, event.id in story.gone) for event in story.events],
    }


def mold_tree(known: MoldKnown) -> dict[str, Any]:
    """A mold for programs.

    Parameters
    ----------
    known : it.
    """
    mold, found = known.mold, known.next
    return {
        "id": mold.id,
        "code": short_code(mold.id),
        "name": mold.name,
        "rubber": mold.rubber,
        "stored": mold.stored,
        "state": mold.state.value,
        "retired": mold.retired,
        "run": mold.run,
        "plan": mold.plan,
        "drawn": known.facts.drawn,
        "drawn_before": mold.drawn_before,
        "last_ms": known.last_ms,
        "lasts": _range(known.facts.lasts),
        "lasts_from": known.lasts_from,
        "left": _range(found.left),
        "pace_30_days": _range(found.pace),
        "editions": [each.name for each in known.editions],
        "numbers_left": known.facts.wanted,
        "others_give": known.facts.others,
        "lead_days": known.facts.lead_days,
        "next_glove": {
            "call": found.call.name.lower(),
            "why": found.why.name.lower(),
            "begin_by": _day(found.begin_by),
            "worn": {
                "earliest": _day(found.worn.earliest),
                "likely": _day(found.worn.likely),
                "latest": _day(found.worn.latest),
            }
            if found.worn
            else None,
        },
        "look_first": known.look_first,
        "shrink": tree_of(known.shrink) if known.shrink else None,
        "planned_shrink_pct": _range(known.planned_pct),
        "files": [each.file for each in mold.files],
    }


def run_tree(run: MoldRun) -> dict[str, Any]:
    """A run of a mold for programs.

    Parameters
    ----------
    run : it.
    """
    return {
        "id": run.id,
        "code": short_code(run.id),
        "name": run.name,
        "made": run.made,
        "edition": run.edition,
        "started_ms": run.started_ms,
        "unread": run.unread,
        "casts": [
            {"cast": cast.turn, "at_ms": cast.at_ms, "mass_g": cast.mass_g, "height_mm": cast.height_mm}
            for cast in run.casts
        ],
    }


def _range(value: Range | None) -> dict[str, float] | None:
    return None if value is None else {"low": value.low, "likely": value.likely, "high": value.high}


def _day(day: date | None) -> str | None:
    return None if day is None else day.isoformat()
