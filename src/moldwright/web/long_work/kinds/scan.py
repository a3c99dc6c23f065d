"""A look at a scan: its figures and a picture of how it will stand, or of the ways that it may."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from moldwright.errors import InputRefused
from moldwright.job.look import look
from moldwright.making.looking.scan import figures, order_of, picture_of
from moldwright.making.looking.ways import drawn, sizes_to_be, ways_to_stand
from moldwright.making.order import scan_of
from moldwright.making.store import store_of
from moldwright.plan.json_text import tree_of
from moldwright.progress import Progress
from moldwright.units.system import UnitSystem
from moldwright.web.long_work.files import MADE

PICTURE = "stands.png"


def look_scan(job: Path, progress: Progress, file: str, options: Mapping[str, str]) -> dict[str, Any]:
    """Look at it. Where up or size is not clear, that is no failure: what is asked, with a picture of each answer.

    Parameters
    ----------
    job : the job's folder.
    progress : told the stages.
    file : the scan.
    options : height, unit, up and board as written, "" where left out.
    """
    path = Path(file)
    asked = order_of(path, options)
    progress("reading the scan", 0.0)
    scan = scan_of(path, store_of(None, False)).value
    made = job / MADE
    made.mkdir(exist_ok=True)
    try:
        looked = look(scan, asked, progress)
    except InputRefused as refused:
        ways = ways_to_stand(refused, scan, asked)
        for number, way in enumerate(ways, start=1):
            progress("drawing the ways to stand", number / len(ways))
            (made / f"way-{number}.png").write_bytes(drawn((way,)))
        told = [{"up": way.up, "picture": f"way-{n}.png"} for n, way in enumerate(ways, start=1)]
        sizes = [{"unit": unit.value, "height_mm": tall} for unit, tall in sizes_to_be(refused, scan, asked)]
        if not told and not sizes:
            raise
        return {"asked": refused.as_kept(), "ways": told, "sizes": sizes}
    progress("drawing how it stands", 0.0)
    (made / PICTURE).write_bytes(picture_of(looked))
    rows = {units.value: figures(looked.found, units) for units in UnitSystem}
    return {"look": tree_of(looked.found), "figures": rows, "picture": PICTURE}
