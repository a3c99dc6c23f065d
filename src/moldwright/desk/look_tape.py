"""`moldwright look COMMISSION.toml`: what was understood of a tape, before anything is planned."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from moldwright.commission.orders import Commission, OriginalOrder
from moldwright.commission.reading import commission_from_toml
from moldwright.desk.look_photos import check_contact
from moldwright.desk.look_rough import LookedVolume, run_look_rough
from moldwright.desk.say import say, say_json
from moldwright.disk.whole_file import write_whole
from moldwright.errors import InputRefused
from moldwright.job.sources import by_tape, tape_of, witnesses_of
from moldwright.making.inputs import read_text
from moldwright.making.original import has_form
from moldwright.original.evidence.narrow import Evidence, together
from moldwright.plan.json_text import tree_of
from moldwright.ranges import Range
from moldwright.sheets.tape_sheet import TapeFacts, more_lines, range_lines, tape_figures, tape_picture, tape_sheet
from moldwright.tape.drawn import Drawn
from moldwright.tape.narrower import Narrower
from moldwright.tape.taped import Taped
from moldwright.text.harmless import harmless


@dataclass(frozen=True, slots=True)
class LookedTape:
    """What a tape tells: height, ranges by itself and with water and weight, levels and limbs."""

    height_mm: float
    volume_ml: Range
    area_cm2: Range
    together_ml: Range
    drawn: Drawn
    narrower: tuple[Narrower, ...]


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
    original = order.original
    if not has_form(original):
        return run_look_rough(order, as_json, picture)
    if original.tape is None:
        remedy = "Write [original.tape] with levels; a scan or a folder of photos is looked at by its own name."
        raise InputRefused("key-missing", "original.tape is left out", "original.tape", "", remedy)
    found = tape_of(original)
    all_ = evidence(original, found)
    facts = _facts(order, found, all_)
    if picture is not None:
        pdf = picture.suffix.lower() == ".pdf"
        write_whole(
            picture, tape_sheet(found.drawn, facts, order.shop.paper) if pdf else tape_picture(found.drawn, facts)
        )
    looked = LookedTape(found.height_mm, found.volume_ml, found.area_cm2, all_.volume_ml, found.drawn, found.narrower)
    if as_json:
        say_json(tree_of(looked))
    else:
        say(in_words(facts))
    return looked


def evidence(original: OriginalOrder, found: Taped) -> Evidence:
    """What the tape says together with water and weight.

    Parameters
    ----------
    original : with what else is known of it.
    found : by tape.
    """
    return together([by_tape(found), *witnesses_of(original)])


def _facts(order: Commission, found: Taped, all_: Evidence) -> TapeFacts:
    return TapeFacts(
        order.original.name,
        found.height_mm,
        found.volume_ml,
        found.area_cm2,
        order.original.gaps,
        all_.volume_ml if len(all_.said) > 1 else None,
        order.shop.units,
        found.narrower,
    )


def in_words(facts: TapeFacts) -> str:
    """What was understood, for a person.

    Parameters
    ----------
    facts : what stands on the page.
    """
    lines = [f"{name:8} {text}" for name, text in tape_figures(facts)]
    return harmless("\n".join([*lines, *range_lines(facts), *more_lines(facts)]), keep="\n")
