"""The list of all steps and their ids, as a table for people."""

from __future__ import annotations

from moldwright.steps.sheet import StepSheet, step_sheets

WORDS = {
    "back-fill": "there is a back-fill",
    "handles": "the original has a through-hole",
    "laid-shell": "the shell is laid by hand",
    "metal-powder": "the powder is metal",
    "patch-test": "compatibility is in doubt",
    "plaster-shell": "the shell is plaster",
    "plinth": "a plinth is planned",
    "powder": "powder goes in",
    "printed-shell": "the shell is printed",
}
"""What the words of a step's condition mean."""


def step_list() -> str:
    """All steps in the order of the work as a Markdown table: id, title, how often, when left out, minutes, wait.

    >>> step_list().splitlines()[2].split("|")[1].strip()
    '`receive`'
    """
    rows = ["| id | step | per | only if | labor, min | wait |", "|---|---|---|---|---|---|"]
    return "\n".join(rows + [_row(sheet) for sheet in step_sheets()])


def _row(sheet: StepSheet) -> str:
    only = ", ".join(WORDS[word] for word in sheet.when)
    if sheet.each == "fill":
        only = "undercuts are packed after a coat"
    cells = (
        f"`{sheet.id.replace('coat-*', 'coat-<name>')}`",
        _title(sheet),
        sheet.per,
        only,
        _labor(sheet),
        _wait(sheet),
    )
    return f"| {' | '.join(cells)} |"


def _title(sheet: StepSheet) -> str:
    """The title without its quantities."""
    return sheet.title.split(" {")[0].split(": {")[0].rstrip(":,").removesuffix(" after").removesuffix(", right")


def _labor(sheet: StepSheet) -> str:
    terms = [f"{minutes:g}" if name == "fixed" else f"{minutes:g} × {name}" for name, minutes in sheet.labor]
    return " + ".join(terms)


def _wait(sheet: StepSheet) -> str:
    if sheet.wait is None:
        return ""
    return (
        f"`{sheet.wait}`" if isinstance(sheet.wait, str) else f"{sheet.wait[1]:g} ({sheet.wait[0]:g}–{sheet.wait[2]:g})"
    )
