"""The sheets of a run as PDFs."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

from moldwright.sheets.run.data import run_data
from moldwright.sheets.run.shown import RunShown
from moldwright.sheets.typesetting import PAPERS, typeset


def run_sheets(shown: RunShown, cast: int | None = None) -> dict[str, bytes]:
    """The PDF on each paper, by the paper's name: the same run, printed at the same moment, gives the same bytes.

    Parameters
    ----------
    shown : the run.
    cast : of which cast, >= 1; None: the mold's sheets, a cast's to fill in, and the log of casts.
    """
    with ThreadPoolExecutor(len(PAPERS)) as pool:
        setting = {
            name: pool.submit(typeset, "run", run_data(shown, paper, cast), {}) for name, (paper, _) in PAPERS.items()
        }
        return {name: pdf.result() for name, pdf in setting.items()}
