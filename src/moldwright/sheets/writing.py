"""The four PDFs of a plan, in its folder."""

from __future__ import annotations

from pathlib import Path

from moldwright.plan.plan import Plan
from moldwright.sheets.bench_data import bench_data
from moldwright.sheets.picture import Pictures
from moldwright.sheets.shopping_data import shopping_data
from moldwright.sheets.typesetting import PAPERS, typeset


def write_sheets(plan: Plan, pictures: Pictures, folder: Path) -> None:
    """Writes sheets/bench-a4.pdf, bench-letter.pdf, shopping-a4.pdf and shopping-letter.pdf under `folder`.

    Parameters
    ----------
    plan : the plan; `plan.units` decides what quantities are printed in.
    pictures : from `sheets.pictures.draw`.
    folder : the plan's folder; "sheets" is made in it.
    """
    place = folder / "sheets"
    place.mkdir(parents=True, exist_ok=True)
    for name, (paper, tall_mm) in PAPERS.items():
        place.joinpath(f"bench-{name}.pdf").write_bytes(typeset("bench", *bench_data(plan, pictures, paper, tall_mm)))
        place.joinpath(f"shopping-{name}.pdf").write_bytes(typeset("shopping", shopping_data(plan, paper), {}))
