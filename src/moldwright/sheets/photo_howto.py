"""The page that tells how to photograph a piece, as its form prints it."""

from __future__ import annotations

from typing import Any

from moldwright.plan.cautions import Severity
from moldwright.sheets.heading import REMINDER
from moldwright.sheets.howto_drawings import howto_drawings
from moldwright.sheets.photo_words import photo_words
from moldwright.sheets.typesetting import PAPERS

COMMAND = "moldwright look FOLDER"


def howto_data(paper: str) -> dict[str, Any]:
    """What the form prints.

    Parameters
    ----------
    paper : "a4" or "letter".
    """
    words = photo_words()["how"]
    drawn = howto_drawings()
    steps = [
        {**step, "text": step["text"].format(command=COMMAND), "bar": drawn["bar"] if "measured" in step else None}
        for step in words["steps"]
    ]
    cautions = [{"severity": Severity.HEED.value, "text": text} for text in words["cautions"].values()]
    return {
        "paper": PAPERS[paper][0],
        "title": words["title"],
        "say": words["say"],
        "steps": steps,
        "photos": words["photos"],
        "cautions": cautions,
        "reminder": REMINDER,
        "drawn": drawn,
    }
