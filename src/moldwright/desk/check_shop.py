"""`moldwright shop check`: what is amiss with the records, in words or as one object."""

from __future__ import annotations

import sys
from typing import Any

from moldwright.desk.say import say, say_json
from moldwright.errors import RecordConflict
from moldwright.making.shop import files_folder, shop_place
from moldwright.records.check.finding import Gravity, ShopFinding
from moldwright.records.check.whole import ShopCheck, checked
from moldwright.told.check_words import heading, held, named, verdict

MARKS = {Gravity.CONTRADICTION: "!!", Gravity.HEED: "! ", Gravity.TOLD: "  "}


def run_check(told: str, as_json: bool) -> None:
    """Look at all of the records and tell what is amiss; ends with the exit code of a contradiction where there is one.

    Parameters
    ----------
    told : as `shop_place`.
    as_json : print one JSON object.
    """
    place = shop_place(told)
    found = checked(place, files_folder(place))
    if as_json:
        say_json(tree(found))
    else:
        say(in_words(found))
    if not found.sound:
        sys.exit(RecordConflict.exit_code)


def tree(found: ShopCheck) -> dict[str, Any]:
    """What was found, for programs.

    Parameters
    ----------
    found : it.
    """
    return {
        "shop": found.shop,
        "version": found.version,
        "events": found.events,
        "subjects": found.subjects,
        "sound": found.sound,
        "findings": [
            {
                "code": each.kind.code,
                "gravity": each.kind.gravity.value,
                "text": each.kind.text,
                "count": each.count,
                "which": list(each.which),
                "remedy": each.kind.remedy,
            }
            for each in found.findings
        ],
    }


def in_words(found: ShopCheck) -> str:
    """What was found, for a person.

    Parameters
    ----------
    found : it.
    """
    lines = [line for each in found.findings for line in _lines(each)]
    return "\n".join([held(found), *lines, verdict(found)])


def _lines(each: ShopFinding) -> list[str]:
    which = [f"     {one}" for one in named(each)]
    return [f"{MARKS[each.kind.gravity]} {heading(each)}", *which, f"     {each.kind.remedy}"]
