"""A plan and its solids as the files of a plan's folder."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from moldwright.geometry.mesh import Mesh
from moldwright.plan.json_text import plan_to_json
from moldwright.plan.plan import Plan
from moldwright.progress import Progress
from moldwright.sheets.model_files import NamedSolid, write_3mf, write_body
from moldwright.sheets.pictures import MoldMeshes, draw
from moldwright.sheets.writing import write_sheets

MODEL = "mold/mold.3mf"
COLORS = {"original": "#8b9a94", "mount": "#b9c2bc", "glove": "#5b93c9", "shell": "#e3dfd4"}


def write_plan(plan: Plan, meshes: Mapping[str, Mesh], folder: Path, progress: Progress) -> None:
    """Write plan.json, the solids and the sheets.

    Parameters
    ----------
    plan : the plan.
    meshes : solids by their file name in the plan's folder, such as "mold/glove.stl" [mm].
    folder : an empty folder.
    progress : told what is written.
    """
    progress("writing solids", 0.0)
    for number, (name, mesh) in enumerate(meshes.items()):
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        write_body(mesh, folder / name)
        progress("writing solids", (number + 1) / len(meshes))
    write_3mf(_colored(meshes), folder / MODEL)
    progress("drawing pictures", 0.0)
    pictures = draw(mold_meshes(plan, meshes))
    progress("setting sheets", 0.0)
    write_sheets(plan, pictures, folder)
    (folder / "plan.json").write_bytes(plan_to_json(plan).encode())
    progress("setting sheets", 1.0)


def mold_meshes(plan: Plan, meshes: Mapping[str, Mesh]) -> MoldMeshes:
    """The solids as the pictures take them.

    Parameters
    ----------
    plan : the plan.
    meshes : solids by their file name in the plan's folder.
    """
    pieces = plan.shell.pieces
    return MoldMeshes(
        original=meshes["mold/original.stl"],
        plinth=meshes.get("mold/mount.stl"),
        glove=meshes["mold/glove.stl"],
        gloved=meshes["mold/gloved.stl"],
        shell=tuple(meshes[piece.file] for piece in pieces),
        draws=tuple(piece.draw for piece in pieces),
        spots=tuple(spot.at for spot in plan.glove.spots),
    )


def _colored(meshes: Mapping[str, Mesh]) -> list[NamedSolid]:
    """All solids but the gloved one, which doubles others, with their names and colors."""
    named = {Path(name).stem: mesh for name, mesh in meshes.items() if Path(name).stem != "gloved"}
    return [NamedSolid(name, mesh, COLORS[name.partition("-")[0]]) for name, mesh in named.items()]
