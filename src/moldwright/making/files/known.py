"""Files of a plan's folder that show what an original is known by: photos with their outlines, the tape's drawing."""

from __future__ import annotations

from pathlib import Path

from moldwright.making.original import Taken
from moldwright.plan.original import OriginalPlan, Source
from moldwright.plan.plan import Plan
from moldwright.ranges import Range


def write_known(taken: Taken, plan: Plan, folder: Path) -> None:
    """Write the contact sheet, the tape's page, or none; their libraries are loaded only where they are needed.

    Parameters
    ----------
    taken : the original as it was read.
    plan : the plan.
    folder : the plan's folder.
    """
    for name, content in {**_photos(taken, plan), **_tape(taken, plan)}.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(content)


def _photos(taken: Taken, plan: Plan) -> dict[str, bytes]:
    if taken.photographed is None:
        return {}
    from moldwright.making.looking.photos import contact_facts, looked_photos  # noqa: PLC0415
    from moldwright.sheets.contact_sheet import contact_files  # noqa: PLC0415

    found = taken.photographed.value
    return contact_files(found.seen, contact_facts(looked_photos(plan.name, taken.order.bar_on_print_mm, found)))


def _tape(taken: Taken, plan: Plan) -> dict[str, bytes]:
    if taken.taped is None:
        return {}
    from moldwright.sheets.tape_sheet import TapeFacts, tape_files  # noqa: PLC0415

    found = taken.taped.value
    narrowed = _narrowed(plan.original)
    facts = TapeFacts(
        plan.name,
        found.height_mm,
        found.volume_ml,
        found.area_cm2,
        taken.order.gaps,
        narrowed,
        plan.units,
        found.narrower,
    )
    return tape_files(found.drawn, facts)


def _narrowed(original: OriginalPlan) -> Range | None:
    """The volume of all sources, where the tape is not the only one."""
    narrowed = original.source is Source.TAPE and original.also
    return original.volume_ml if narrowed and isinstance(original.volume_ml, Range) else None
