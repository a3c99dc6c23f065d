"""The demo's folders: an otter that we made ourselves, or photos of its pup, and the commission that goes with it."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from moldwright.geometry.mesh import Mesh

DEMO_STEP_MM = 1.0


def otter_mesh(step_mm: float = DEMO_STEP_MM) -> Mesh:
    """The demo's sculpture as one closed body: z up, its flat base at z = 0, 190 mm tall, one through-hole at the tail.

    Parameters
    ----------
    step_mm : lattice step [mm], 0.3 to 2; the number of triangles goes with 1 / step_mm^2 (238,000 at 1 mm).

    Source: our own sculpture, made for this project.
    """
    from moldwright.making.demo.lattice import mesh_of_field  # noqa: PLC0415
    from moldwright.making.demo.sculpture import load_sculpture  # noqa: PLC0415

    sculpture = load_sculpture()
    return mesh_of_field(sculpture.distance_mm, sculpture.low_mm, sculpture.high_mm, step_mm)


def write_demo(folder: Path) -> Path:
    """Write `otter.stl` and `commission.toml` into `folder` and return the commission's path."""
    from moldwright.sheets.model_files import write_stl  # noqa: PLC0415

    folder.mkdir(parents=True, exist_ok=True)
    write_stl(otter_mesh(), folder / "otter.stl")
    commission = folder / "commission.toml"
    commission.write_bytes(files("moldwright.making.demo").joinpath("commission.toml").read_bytes())
    return commission


def write_photo_demo(folder: Path) -> Path:
    """Write `photos` and `commission.toml` into `folder` and return the commission's path.

    The photos are rendered, of our own sculpture (`tools/demo_photos` makes them): no scan of it is written.
    """
    demo = files("moldwright.making.demo")
    (folder / "photos").mkdir(parents=True, exist_ok=True)
    for photo in demo.joinpath("photos").iterdir():
        (folder / "photos" / photo.name).write_bytes(photo.read_bytes())
    commission = folder / "commission.toml"
    commission.write_bytes(demo.joinpath("pup.commission.toml").read_bytes())
    return commission
