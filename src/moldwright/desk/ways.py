"""What a remedy leads to, as a command line says it."""

from __future__ import annotations

from moldwright.commission.keys import keys
from moldwright.errors import MoldwrightError
from moldwright.text.toml import toml_value
from moldwright.ways import Deed, Way, command


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
        return f"`{command(way)}`"
    table, _, name = way.key.rpartition(".")
    key = keys().get(table, {}).get(name)
    value = way.to or (key.example if key is not None else "")
    return f"write {name} = {toml_value(value)} under [{table}]"
