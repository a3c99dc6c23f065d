"""`moldwright look`: of whatever is given, each with what looks at it; that is loaded only when it is needed."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from moldwright.desk.look_options import check_options, is_commission
from moldwright.making.inputs import is_folder


def run_look_any(
    file: Path, scan: Mapping[str, str], bar: str, watch: bool, as_json: bool, quiet: bool, picture: Path | None
) -> None:
    """Look at a scan, a folder of photos or a commission, and print what was found.

    Parameters
    ----------
    file : what is looked at.
    scan : options of a scan by name, "" where left out.
    bar : what the bar of the photos' sheet measures, as written; "" where it was left out.
    watch : tell what is missing as photos arrive.
    as_json : print one JSON object.
    quiet : do not tell the stages.
    picture : the picture to write; None for none.
    """
    check_options(file, scan, {"bar": bar, "watch": watch})
    if is_commission(file):
        from moldwright.desk.look_tape import run_look_tape  # noqa: PLC0415

        run_look_tape(file, as_json, picture)
    elif not is_folder(file):
        from moldwright.desk.command_look import run_look  # noqa: PLC0415

        run_look(file, scan, as_json, quiet, picture)
    elif watch:
        from moldwright.desk.watch_photos import watch as watch_photos  # noqa: PLC0415

        watch_photos(file)
    else:
        from moldwright.desk.look_photos import run_look_photos  # noqa: PLC0415

        run_look_photos(file, bar, as_json, quiet, picture)
