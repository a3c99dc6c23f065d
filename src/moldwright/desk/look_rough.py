"""`moldwright look COMMISSION.toml` where water or weight alone tell the original: volume, and what no volume tells."""

from __future__ import annotations

from pathlib import Path

from moldwright.commission.orders import Commission
from moldwright.desk.say import say, say_json
from moldwright.errors import InputRefused
from moldwright.making.looking.volume import LookedVolume, look_at_volume
from moldwright.plan.json_text import tree_of
from moldwright.sheets.rough_words import lack_words, original_rows, rough_table


def run_look_rough(order: Commission, as_json: bool = False, picture: Path | None = None) -> LookedVolume:
    """Look at an original that is known by water or weight alone.

    Parameters
    ----------
    order : the commission.
    as_json : print one JSON object.
    picture : refused: there is nothing to draw.
    """
    if picture is not None:
        remedy = "Leave it out: a volume has no form that could be drawn. A tape, photos or a scan give one."
        raise InputRefused("option-unfit", "--picture of water or weight alone", "a form", "", remedy)
    looked = look_at_volume(order)
    if as_json:
        say_json(tree_of(looked))
    else:
        say(in_words(looked, order))
    return looked


def in_words(looked: LookedVolume, order: Commission) -> str:
    """What was found, for a person.

    Parameters
    ----------
    looked : what water and weight tell.
    order : the commission, for its units.
    """
    words = rough_table()
    figures = [f"  {name:<14}{text}" for name, text in original_rows(looked.original, order.shop.units)]
    return "\n".join(
        [words["banner"], *figures, *(f"  - {lack}" for lack in lack_words(looked.lacks)), words["look"]["plan"]]
    )
