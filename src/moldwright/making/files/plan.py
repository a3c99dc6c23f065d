"""A plan and its solids as the files of a plan's folder."""

from __future__ import annotations

from pathlib import Path

from moldwright.job.planning import Planned
from moldwright.making.files.solids import SolidFiles
from moldwright.making.files.strain_file import write_strain
from moldwright.plan.plan import Plan
from moldwright.plan.seam import Point3, place_of
from moldwright.progress import Progress
from moldwright.sheets.picture import Pictures
from moldwright.sheets.plan_text import plan_text
from moldwright.sheets.side_drawing import Drawings
from moldwright.sheets.writing import write_sheets
from moldwright.store.memory import Store
from moldwright.store.stage import Stage
from moldwright.told.surfaces.hold import stays_mm
from moldwright.told.surfaces.mapped import SurfaceMaps, asked_of, shown_maps

SOLID_FILES = Stage("moldwright.making.files.stages:solid_files", "writing solids", SolidFiles)
PLATE_FILES = Stage("moldwright.making.files.stages:plate_files", "writing plates", SolidFiles)
PICTURES = Stage("moldwright.making.files.stages:pictures_of", "drawing pictures", Pictures)
MAPS = Stage("moldwright.making.files.mapping:maps_of", "drawing maps", SurfaceMaps)
DRAWINGS = Stage("moldwright.making.files.stages:drawings_of", kind=Drawings)
APART, CUT = "pictures/apart.png", "pictures/cut.png"


def write_plan(planned: Planned, store: Store, folder: Path, progress: Progress) -> None:
    """Write plan.json, the solids and the sheets.

    Parameters
    ----------
    planned : the plan and its solids.
    store : where the solids' files and the pictures are kept.
    folder : an empty folder.
    progress : told what is made anew.
    """
    plan, solids = planned.plan, planned.solids
    shapes = solids.mounted, solids.glove, solids.shell
    files = SOLID_FILES.kept(store, progress, *shapes)
    spots, holes = tuple(s.at for s in plan.glove.spots), tuple((h.letter, h.at) for h in plan.original.holes)
    body = solids.mounted, solids.coated, solids.shell, solids.peeled
    strained = None if plan.glove.strain is None else solids.strained
    maps = MAPS.kept(store, progress, *body, strained, asked_of(plan), stays_mm(plan), plan.units)
    pictures = PICTURES.kept(store, progress, *shapes, spots, holes, _slit_of(plan))
    told = plan.shell
    drawings = DRAWINGS.kept(store, progress, solids.shell, told.seam_line, plan.flange.frame, told.level_cuts_mm)
    contents = dict(files.value.contents)
    if plan.printing is not None:
        contents |= PLATE_FILES.kept(store, progress, solids.plates).value.contents
    for name, content in contents.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(content)
    if strained is not None:
        write_strain(strained.value.field, folder)
    shown, drawn, mapped = pictures.value, drawings.value, maps.value
    progress("setting sheets", 0.0)
    write_pictures(shown, folder)
    write_sheets(plan, shown, shown_maps(plan, mapped), folder)
    write_templates(plan, drawn, shown, folder)
    (folder / "plan.json").write_bytes(plan_text(plan).encode())
    progress("setting sheets", 1.0)


def _slit_of(plan: Plan) -> tuple[tuple[Point3, ...], ...]:
    """The lines of its slit."""
    lines = plan.glove.slit.line.lines if plan.glove.slit else ()
    return tuple(tuple(place_of(station, plan.flange.frame) for station in line.stations) for line in lines)


def write_pictures(pictures: Pictures, folder: Path) -> None:
    """Write the mold drawn apart and cut open, as the sheets have them, for a screen that shows no solids.

    Parameters
    ----------
    pictures : the sheets' pictures.
    folder : the plan's folder.
    """
    (folder / APART).parent.mkdir(parents=True, exist_ok=True)
    (folder / APART).write_bytes(pictures.apart.png)
    (folder / CUT).write_bytes(pictures.cut.png)


def write_templates(plan: Plan, drawings: Drawings, pictures: Pictures, folder: Path) -> None:
    """Write the full-size templates; their library of geometry is loaded only now, which keeps the start fast.

    Parameters
    ----------
    plan : the plan.
    drawings : the sides at full size.
    pictures : the sheets' pictures.
    folder : the plan's folder.
    """
    from moldwright.sheets import templates_writing  # noqa: PLC0415

    templates_writing.write_templates(plan, drawings, pictures, folder)
