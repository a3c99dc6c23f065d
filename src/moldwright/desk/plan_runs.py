"""That runs go on by the plan that a new one takes the place of: told, and nothing of theirs changed."""

from __future__ import annotations

import os
import shlex
from contextlib import suppress
from pathlib import Path

from moldwright.desk.say import say
from moldwright.desk.shop_at import opened
from moldwright.errors import MoldwrightError
from moldwright.making.inputs import read_text
from moldwright.making.shop import SHOP, shop_place
from moldwright.text.harmless import harmless


def earlier_plan(out: Path) -> str:
    """The text of the plan that a folder holds; "" for none.

    Parameters
    ----------
    out : the folder.
    """
    with suppress(MoldwrightError):
        return read_text(out / "plan.json", "plan")
    return ""


def tell_runs(earlier: str, out: Path) -> None:
    """Tell which runs go by the earlier plan, and how each is taken over; where there is no shop, nothing.

    Parameters
    ----------
    earlier : the text of the plan that was in the folder.
    out : the folder with the new one.
    """
    if not earlier or earlier == earlier_plan(out):
        return
    with suppress(MoldwrightError):
        for line in _lines(earlier, out):
            say(line, to_stderr=True)


def _lines(earlier: str, out: Path) -> list[str]:
    place = shop_place(os.environ.get(SHOP, ""))
    if "://" not in place and not Path(place).exists():
        return []
    with opened(place) as shop:
        from moldwright.log.codes import short_code  # noqa: PLC0415
        from moldwright.records.runs.replan import under_way_by  # noqa: PLC0415

        rows = under_way_by(shop, earlier)
    folder = harmless(shlex.quote(str(out)))
    return [
        f"Run {short_code(row.id)} goes on by the earlier plan, {row.done} steps done. To let it go on by this one: "
        f"moldwright bench {short_code(row.id)} --replan {folder}"
        for row in rows
    ]
