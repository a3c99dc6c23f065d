"""What a remedy leads to, as a command line says it."""

from __future__ import annotations

from moldwright.commission.keys import keys
from moldwright.errors import MoldwrightError
from moldwright.text.toml import toml_value
from moldwright.ways import Deed, Way

COMMANDS = {
    Deed.SEE_MATERIALS: "materials list",
    Deed.SEE_PIECES: "piece list",
    Deed.SEE_RUNS: "bench --list",
    Deed.SEE_LOTS: "lot list",
    Deed.SEE_MOLDS: "mold list",
    Deed.SEE_EDITIONS: "edition list",
    Deed.SEE_NUMBERS: "edition show EDITION",
    Deed.SEE_RECIPES: "recipe list",
    Deed.SEE_LABEL_SHEETS: "label --sheets",
    Deed.SEE_RUN_LOG: "bench RUN --show",
    Deed.SEE_PIECE_LOG: "piece show PIECE",
    Deed.SEE_LOT_LOG: "lot show LOT",
    Deed.SEE_MOLD_LOG: "mold show MOLD",
    Deed.SEE_EDITION_LOG: "edition show EDITION",
    Deed.SEE_RECIPE_LOG: "recipe show RECIPE",
    Deed.ADD_LOT: "lot add",
    Deed.KEEP_RECIPE: "recipe keep",
    Deed.CHANGE_PIECE: "piece change",
    Deed.BEGIN_RUN: "bench PLAN",
    Deed.END_RUN: "bench RUN --end WHY",
    Deed.GIVE_NUMBER: "edition number",
    Deed.VOID_NUMBER: "edition void",
    Deed.BRING_BACK: "edition back",
    Deed.CHECK_SHOP: "shop check",
    Deed.LOOK_AT_PHOTOS: "look FOLDER",
    Deed.PRINT_PHOTO_SHEET: "photos",
}
"""The command of each deed, behind the program's name."""


def remedy_line(error: MoldwrightError) -> str:
    """A refusal's remedy with the command, or the line of a commission, that it leads to.

    Parameters
    ----------
    error : the refusal.

    >>> from moldwright.errors import InputRefused
    >>> from moldwright.ways import Change
    >>> remedy_line(InputRefused("not-kept", "7", "a lot of this shop", "", "Look which there are", Deed.SEE_LOTS))
    'Look which there are: `moldwright lot list`.'
    >>> wide = InputRefused("flange-narrow", 8.0, 12.0, "mm", "The keys need room", Change("mold.flange", "12 mm"))
    >>> remedy_line(wide)
    'The keys need room: write flange = "12 mm" under [mold].'
    """
    return error.remedy if error.way is None else f"{error.remedy}: {_line(error.way)}."


def _line(way: Way) -> str:
    if isinstance(way, Deed):
        return f"`moldwright {COMMANDS[way]}`"
    table, _, name = way.key.rpartition(".")
    key = keys().get(table, {}).get(name)
    value = way.to or (key.example if key is not None else "")
    return f"write {name} = {toml_value(value)} under [{table}]"
