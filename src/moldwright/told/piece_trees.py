"""Pieces for programs: as JSON tells them."""

from __future__ import annotations

from typing import Any

from moldwright.log.codes import short_code
from moldwright.records.pieces.listing import PieceKnown, PieceStory
from moldwright.told.log_tree import entry_tree


def piece_tree(known: PieceKnown) -> dict[str, Any]:
    """A piece for programs.

    Parameters
    ----------
    known : it.
    """
    piece = known.piece
    return {
        "id": piece.id,
        "code": short_code(piece.id),
        "name": piece.name,
        "whom": piece.whom,
        "due": piece.due or None,
        "count": known.count,
        "stage": known.stage.name.lower(),
        "taken_in_ms": piece.taken_in_ms,
        "plan": piece.plan.plan if piece.plan else None,
        "changed_since_plan": piece.changed_since,
        "runs": [
            {"id": run.id, "code": short_code(run.id), "started_ms": run.started_ms, "ended_ms": run.ended_ms}
            for run in known.runs
        ],
        "molds": list(known.molds),
        "editions": list(known.editions),
        "picture": known.picture,
        "put_away": piece.put_away,
    }


def piece_story_tree(story: PieceStory) -> dict[str, Any]:
    """A piece's whole story for programs.

    Parameters
    ----------
    story : it.
    """
    piece = story.known.piece
    return {
        **piece_tree(story.known),
        "asked": piece.asked,
        "commission": piece.commission,
        "files": [{"name": each.name, "file": each.file} for each in piece.files],
        "plans": [
            {"plan": each.plan, "asked": each.asked, "version": each.version, "at_ms": each.at_ms}
            for each in piece.plans
        ],
        "attached": list(piece.attached),
        "log": [entry_tree(event, event.id in story.gone) for event in story.events],
    }
