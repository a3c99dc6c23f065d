"""What is true of a rendered set: the body as it stood on the sheet, each photo's pose and lens, its exact outline."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass
from pathlib import Path

import numpy as np
import numpy.typing as npt
import trimesh
from PIL import Image
from tests.photo_sets.camera import TrueLens, TrueView

from moldwright.photos.sheet.sizes import SheetSize

Bytes = npt.NDArray[np.uint8]
FOLDER = "truth"


@dataclass(frozen=True, slots=True, eq=False)
class Truth:
    """A set's folder, its sheet, its body [mm, on the sheet], and its photos."""

    folder: Path
    size: SheetSize
    body: trimesh.Trimesh
    views: tuple[TrueView, ...]

    @property
    def height_mm(self) -> float:
        """The body's."""
        return float(self.body.bounds[1, 2])

    def mask(self, view: TrueView) -> Bytes:
        """The piece's exact outline on a photo, 255 or 0."""
        with Image.open(self.mask_path(view)) as image:
            return np.asarray(image)

    def mask_path(self, view: TrueView) -> Path:
        """Where that is kept."""
        return self.folder / FOLDER / f"{Path(view.file).stem}.mask.png"

    def write(self) -> None:
        """Into the set's folder: truth/truth.json, truth/body.stl, truth/body.npz (exact)."""
        into = self.folder / FOLDER
        into.mkdir(parents=True, exist_ok=True)
        told = [
            {"file": v.file, "rotation": v.rotation.tolist(), "shift_mm": v.shift_mm.tolist(), "lens": asdict(v.lens)}
            for v in self.views
        ]
        (into / "truth.json").write_text(json.dumps({"size": self.size, "views": told}, indent=1))
        self.body.export(into / "body.stl")
        np.savez(into / "body.npz", vertices=self.body.vertices, faces=self.body.faces)


def read_truth(folder: Path) -> Truth:
    """The truth of a set that was written before."""
    told = json.loads((folder / FOLDER / "truth.json").read_text())
    body = np.load(folder / FOLDER / "body.npz")
    views = tuple(_view(one) for one in told["views"])
    return Truth(
        folder, SheetSize(told["size"]), trimesh.Trimesh(body["vertices"], body["faces"], process=False), views
    )


def _view(told: dict) -> TrueView:  # type: ignore[type-arg]
    lens = dict(told["lens"])
    lens["center_px"] = tuple(lens["center_px"])
    return TrueView(told["file"], TrueLens(**lens), np.array(told["rotation"]), np.array(told["shift_mm"]))
