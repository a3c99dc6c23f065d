"""`python -m tests.photo_sets BODY FOLDER`: render a set of a body of the catalog, or of a mesh file in mm."""

from __future__ import annotations

import argparse
from pathlib import Path

import trimesh
from tests.photo_sets.catalog import catalog, entry, fitting
from tests.photo_sets.materials import Material
from tests.photo_sets.shoot import Shoot, shoot

from moldwright.photos.sheet.sizes import SheetSize


def main() -> None:
    """Read the arguments and shoot."""
    asked = _arguments()
    if Path(asked.body).is_file():
        body, material, seed = trimesh.load(asked.body, force="mesh"), Material.PLASTER, 1
    else:
        chosen = entry(asked.body)
        body, material, seed = chosen.make(), chosen.material, chosen.seed
    if asked.height:
        body.apply_scale(asked.height / body.extents[2])
    size = SheetSize(asked.size) if asked.size else fitting(body)
    how = Shoot(
        seed=asked.seed or seed,
        material=Material(asked.material or material),
        width_px=asked.wide,
        height_px=asked.wide * 3 // 4,
        rings=((20.0, asked.count), (50.0, asked.count)),
        top=asked.top,
    )
    truth = shoot(body, size, asked.folder, how)
    print(
        f"{len(truth.views)} photos on {size}, {body.extents.round()} mm, {body.volume / 1000:.1f} ml: {asked.folder}"
    )


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("body", help=f"a mesh file, or one of {', '.join(one.name for one in catalog())}")
    parser.add_argument("folder", type=Path)
    parser.add_argument("--height", type=float, help="[mm]")
    parser.add_argument("--size", choices=list(SheetSize))
    parser.add_argument("--material", choices=list(Material))
    parser.add_argument("--count", type=int, default=24, help="photos in a ring")
    parser.add_argument("--wide", type=int, default=1600, help="long side of a photo [px]")
    parser.add_argument("--seed", type=int)
    parser.add_argument("--top", action="store_true", help="one more photo from above")
    return parser.parse_args()


if __name__ == "__main__":
    main()
