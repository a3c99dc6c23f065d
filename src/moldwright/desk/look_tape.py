"""`moldwright look COMMISSION.toml`: what was understood of a tape, before anything is planned."""

from __future__ import annotations

from pathlib import Path

from moldwright.commission.reading import commission_from_toml
from moldwright.desk.look_photos import check_contact
from moldwright.desk.look_rough import run_look_rough
from moldwright.desk.say import say, say_json
from moldwright.disk.whole_file import write_whole
from moldwright.making.inputs import read_text
from moldwright.making.looking.tape import LookedTape, drawing, look_at_tape
from moldwright.making.looking.volume import LookedVolume
from moldwright.making.original import has_form
from moldwright.plan.json_text import tree_of
from moldwright.sheets.tape_sheet import TapeFacts, more_lines, range_lines, tape_figures
from moldwright.text.harmless import harmless


def run_look_tape(path: Path, as_json: bool = False, picture: Path | None = None) -> LookedTape | LookedVolume:
    """Look at the tape of a commission and print what was understood; at water or weight where nothing else is given.

    Parameters
    ----------
    path : the commission.
    as_json : print one JSON object.
    picture : a PNG or PDF to write of what was understood.
    """
    if picture is not None:
        check_contact(picture)
    order = commission_from_toml(read_text(path, "commission"))
    if not has_form(order.original):
        return run_look_rough(order, as_json, picture)
    looked, facts = look_at_tape(order)
    if picture is not None:
        write_whole(picture, drawing(order, looked.drawn, facts, picture.suffix.lower() == ".pdf"))
    if as_json:
        say_json(tree_of(looked))
    else:
        say(in_words(facts))
    return looked


def in_words(facts: TapeFacts) -> str:
    """What was understood, for a person.

    Parameters
    ----------
    facts : what stands on the page.
    """
    lines = [f"{name:8} {text}" for name, text in tape_figures(facts)]
    return harmless("\n".join([*lines, *range_lines(facts), *more_lines(facts)]), keep="\n")
