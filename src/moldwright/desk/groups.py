"""The groups of commands below `moldwright`."""

from __future__ import annotations

import typer

from moldwright.desk.command_lot import lots
from moldwright.desk.command_materials import materials
from moldwright.desk.command_mold import mold
from moldwright.desk.command_piece import piece
from moldwright.desk.command_pieces import edition
from moldwright.desk.command_recipe import recipe
from moldwright.desk.command_shop import shop

GROUPS: dict[str, typer.Typer] = {
    "materials": materials,
    "piece": piece,
    "lot": lots,
    "mold": mold,
    "edition": edition,
    "recipe": recipe,
    "shop": shop,
}
"""Each by its name, in the order of the help."""
