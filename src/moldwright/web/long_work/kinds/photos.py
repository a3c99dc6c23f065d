"""A look at photos: each one used or not and why, what is missing, what is asked, and the contact sheet."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from moldwright.making.looking.photos import bar_of, contact, figures, lines, look_at_photos
from moldwright.plan.json_text import tree_of
from moldwright.progress import Progress
from moldwright.sheets.photo_told import ask_line, photo_line
from moldwright.web.long_work.files import MADE

SHEET = "contact.png"


def look_photos(job: Path, progress: Progress, folder: str, bar: str) -> dict[str, Any]:
    """Look at them.

    Parameters
    ----------
    job : the job's folder.
    progress : told while they are read and carved.
    folder : the photos.
    bar : what the sheet's bar of 100 mm measures, as written, "" where left out.
    """
    looked, found = look_at_photos(Path(folder), bar_of(bar), progress)
    progress("drawing the contact sheet", 0.0)
    made = job / MADE
    made.mkdir(exist_ok=True)
    (made / SHEET).write_bytes(contact(looked, found, as_pdf=False))
    return {
        "photos": [{"file": each.file, "used": each.used, "line": photo_line(each)} for each in looked.photos],
        "figures": figures(looked),
        "lines": lines(looked),
        "asks": [{"name": each.name, "line": ask_line(each)} for each in looked.asks],
        "look": tree_of(looked),
        "picture": SHEET,
    }
