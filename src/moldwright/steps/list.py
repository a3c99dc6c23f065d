"""The list of all steps and their ids, as a table for people."""

from __future__ import annotations

from moldwright.steps.flags import Condition, Flag
from moldwright.steps.sheet import Each, StepSheet, step_sheets

WORDS = {
    Condition(Flag.BACK_FILL): "there is a back-fill",
    Condition(Flag.CAST_RELEASE): "a release goes into the mold",
    Condition(Flag.HANDLES): "the original has a through-hole",
    Condition(Flag.LAID_SHELL): "the shell is laid by hand",
    Condition(Flag.METAL_POWDER): "the powder is metal",
    Condition(Flag.FIRST_LAID): "it is the first of the shell's pieces",
    Condition(Flag.LAST_LAID, up=False): "another of the shell's pieces is laid after it",
    Condition(Flag.ONE_PIECE, up=False): "the shell has more than one piece",
    Condition(Flag.PATCH_TEST): "rubber and original are in doubt",
    Condition(Flag.PLINTH): "a plinth is planned",
    Condition(Flag.POWDER): "powder goes in",
    Condition(Flag.POWDER_TEST): "powder and resin are in doubt",
    Condition(Flag.PRINTED_SHELL): "the shell is printed",
    Condition(Flag.PRINT_LAID): "the shell is printed and its plates are laid out",
    Condition(Flag.BANDAGE): "the shell is of plaster bandage",
    Condition(Flag.MATS): "the shell is of gypsum with matting",
    Condition(Flag.RELEASE): "a release is chosen",
    Condition(Flag.RESIN_TEST): "resin and rubber are in doubt",
    Condition(Flag.SEALER): "a sealer is chosen",
    Condition(Flag.SLIT): "the glove cannot be peeled whole",
    Condition(Flag.TIME_TO_DEAIR): "the pot life leaves the time",
    Condition(Flag.SHELL_TEST): "shell and rubber are in doubt",
    Condition(Flag.STAND_BOARDS): "boards bear it mouth up",
    Condition(Flag.WALL_SEAM): "the shell is laid by hand, its seam against a wall",
}
"""What a step's condition asks, in words."""


def step_list() -> str:
    """All steps in the order of the work as a Markdown table: id, title, how often, when left out, minutes, wait.

    >>> step_list().splitlines()[2].split("|")[1].strip()
    '`receive`'
    """
    rows = ["| id | step | per | only if | labor, min | wait |", "|---|---|---|---|---|---|"]
    return "\n".join(rows + [_row(sheet) for sheet in step_sheets()])


def _row(sheet: StepSheet) -> str:
    only = ", ".join(WORDS[word] for word in sheet.when)
    if sheet.each is Each.FILL:
        only = "undercuts are packed after a coat"
    cells = (
        f"`{sheet.id.replace('*', '<number>')}`",
        sheet.plain.text,
        sheet.per,
        only,
        _labor(sheet),
        _wait(sheet),
    )
    return f"| {' | '.join(cells)} |"


def _labor(sheet: StepSheet) -> str:
    terms = [f"{minutes:g}" if name == "fixed" else f"{minutes:g} × {name}" for name, minutes in sheet.labor]
    return " + ".join(terms)


def _wait(sheet: StepSheet) -> str:
    if sheet.wait is None:
        return ""
    return (
        f"`{sheet.wait}`" if isinstance(sheet.wait, str) else f"{sheet.wait[1]:g} ({sheet.wait[0]:g}–{sheet.wait[2]:g})"
    )
