"""The templates of a plan, in its folder."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from moldwright.plan.plan import Plan
from moldwright.sheets.picture import Pictures
from moldwright.sheets.side_drawing import Drawings
from moldwright.sheets.templates_data import templates_data
from moldwright.sheets.typesetting import PAPERS, typeset


def write_templates(plan: Plan, drawings: Drawings, pictures: Pictures, folder: Path) -> None:
    """Writes sheets/templates-a4.pdf and templates-letter.pdf under `folder`.

    Parameters
    ----------
    plan : the plan; `plan.units` decides what quantities are printed in.
    drawings : from `sheets.templates_drawn.side_drawings`.
    pictures : from `sheets.pictures.draw`.
    folder : the plan's folder; "sheets" is made in it.
    """
    place = folder / "sheets"
    place.mkdir(parents=True, exist_ok=True)
    pool = ThreadPoolExecutor(len(PAPERS))
    try:
        setting = {
            name: pool.submit(typeset, "templates", *templates_data(plan, drawings, pictures, paper, tall_mm))
            for name, (paper, tall_mm) in PAPERS.items()
        }
        for name, pdf in setting.items():
            place.joinpath(f"templates-{name}.pdf").write_bytes(pdf.result())
    finally:
        pool.shutdown(cancel_futures=True)
