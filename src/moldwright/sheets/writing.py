"""The four PDFs of a plan, in its folder."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from functools import partial
from pathlib import Path

from moldwright.plan.plan import Plan
from moldwright.sheets.bench_data import bench_data
from moldwright.sheets.map_page import ShownMap
from moldwright.sheets.picture import Pictures
from moldwright.sheets.shopping_data import shopping_data
from moldwright.sheets.typesetting import PAPERS, typeset


def write_sheets(plan: Plan, pictures: Pictures, maps: Sequence[ShownMap], folder: Path) -> None:
    """Writes sheets/bench-a4.pdf, bench-letter.pdf, shopping-a4.pdf and shopping-letter.pdf under `folder`.

    The sheets are set side by side: the typesetter leaves Python's lock alone.

    Parameters
    ----------
    plan : the plan; `plan.units` decides what quantities are printed in.
    pictures : from `sheets.pictures.draw`.
    maps : what is told of its surfaces.
    folder : the plan's folder; "sheets" is made in it.
    """
    place = folder / "sheets"
    place.mkdir(parents=True, exist_ok=True)
    sheets: dict[str, Callable[[], bytes]] = {}
    for name, (paper, tall_mm) in PAPERS.items():
        sheets[f"bench-{name}.pdf"] = partial(typeset, "bench", *bench_data(plan, pictures, maps, paper, tall_mm))
        sheets[f"shopping-{name}.pdf"] = partial(typeset, "shopping", shopping_data(plan, paper), {})
    pool = ThreadPoolExecutor(len(sheets))
    try:
        setting = {name: pool.submit(sheet) for name, sheet in sheets.items()}
        for name, pdf in setting.items():
            place.joinpath(name).write_bytes(pdf.result())
    finally:
        pool.shutdown(cancel_futures=True)
