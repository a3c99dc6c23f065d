"""Options that many commands have."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

Json = Annotated[
    bool, typer.Option("--json", metavar="", help="Print the result as JSON; an error is one JSON object on stderr.")
]
CsvFile = Annotated[
    Path | None, typer.Option("--csv", metavar="FILE", help="Write the list into this file too, for a spreadsheet.")
]
Why = Annotated[str, typer.Option("--why", metavar="TEXT", help="Why, for whoever reads it later.")]
Sheets = Annotated[Path | None, typer.Option("--sheets", metavar="DIR", help="Folder of your own sheets, laid on top.")]
Quiet = Annotated[bool, typer.Option("--quiet", "-q", metavar="", help="Do not tell the stages while working.")]
