"""`moldwright plan` around a planning that is made up here: the folder's files, refusals, JSON, what is kept."""

from __future__ import annotations

import json
import types
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace
from typing import Any, NamedTuple

import jsonschema
import numpy as np
import pytest
from sheets_fixture import FLANGE, mold_meshes
from sheets_fixture import plan as sample

from moldwright.desk import main
from moldwright.errors import NoSafePlan
from moldwright.geometry.mesh import Mesh
from moldwright.job.rubbering import Glove
from moldwright.making import order
from moldwright.making import plan as making
from moldwright.making.store import store_of
from moldwright.mold.glove import CoatedBody
from moldwright.mold.mouth import Mounted, Mouth
from moldwright.mold.peel_parts import PeelParts
from moldwright.mold.peel_places import Peeled
from moldwright.mold.peel_surface import PeelSurface
from moldwright.mold.removal import Removal
from moldwright.mold.seam_line import SeamCurve
from moldwright.mold.shell import BuiltShell, Piece
from moldwright.plan.json_schema import plan_schema
from moldwright.plan.json_text import plan_from_json
from moldwright.plan.plan import Plan
from moldwright.store.stage import Kept, Stage

CONTRACT = {
    "plan.json", "mold/original.stl", "mold/glove.stl", "mold/gloved.stl", "mold/shell-1.stl", "mold/shell-2.stl",
    "mold/mold.3mf", "mold/mold-apart.3mf", "sheets/bench-a4.pdf", "sheets/bench-letter.pdf", "sheets/shopping-a4.pdf",
    "sheets/templates-a4.pdf", "sheets/templates-letter.pdf",
    "sheets/shopping-letter.pdf",
}  # fmt: skip
SCAN = b"OFF\n4 4 0\n0 0 0\n100 0 0\n0 100 0\n0 0 100\n3 0 2 1\n3 0 1 3\n3 1 2 3\n3 0 3 2\n"


MADE: Counter[str] = Counter()


class MadeUp(NamedTuple):
    """As much of a planned job as writing it needs."""

    plan: Plan
    solids: Any


def kept(name: str, value: Any) -> Kept[Any]:
    """A result that counts how often it is asked for."""
    return Kept(name, lambda: MADE.update([name]) or value)


def planned(*_: Any) -> MadeUp:
    made = mold_meshes(16)
    mouth = Mouth(5000.0, 60.0, 1, 1, 5000.0)
    removal = Removal(0.0, 14, 100, 0, 50.0)
    pieces = tuple(Piece(mesh, draw, 1.0) for mesh, draw in zip(made.shell, made.draws, strict=True))
    solids = {
        "mounted": Mounted(mouth, made.original, made.plinth, 0.0, made.original),
        "glove": Glove(made.glove, 300.0),
        "coated": CoatedBody(made.gloved, FLANGE, (1.0,), 1.0, 4.0, 0.0, (), ()),
        "shell": BuiltShell(pieces, made.gloved, (), (0.0, 500.0), SeamCurve(()), 0.0, 0.0, 0.5, removal),
        "peeled": sliding(made.original),
    }
    return MadeUp(sample(), SimpleNamespace(**{name: kept(name, value) for name, value in solids.items()}))


def sliding(body: Mesh) -> Peeled:
    """A glove that is stretched nowhere."""
    count = len(body.vertices)
    surface = PeelSurface(body, np.zeros(count), np.zeros(count, bool), 13.0, 4.0, 0.1)
    return Peeled(surface, PeelParts((), np.full(count, -1, np.int64)), np.zeros(0), np.zeros(0))


@pytest.fixture
def command(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> types.ModuleType:
    """The module that plans with the made-up planning behind it, and a commission in the current folder."""
    monkeypatch.setattr(making, "make_plan", planned)
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    Path("scan.off").write_bytes(SCAN)
    Path("c.toml").write_text('[original]\nfile = "scan.off"\nunit = "mm"\n')
    MADE.clear()
    return making


def run(out: str, as_json: bool = False, no_cache: bool = False) -> None:
    """The command as the command line runs it, in this process."""
    main.plan(commission=Path("c.toml"), out=Path(out), as_json=as_json, no_cache=no_cache)


def without_sheets(monkeypatch: pytest.MonkeyPatch) -> None:
    """Sheets take seconds and are tested in their own room."""
    monkeypatch.setattr("moldwright.making.files.plan.write_sheets", lambda plan, pictures, maps, folder: None)
    monkeypatch.setattr("moldwright.making.files.plan.write_templates", lambda plan, drawings, pictures, folder: None)


def files(folder: Path) -> set[str]:
    return {str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file()}


def test_the_contracts_files_and_the_same_bytes_twice(
    command: types.ModuleType, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    run("one")
    assert files(Path("one")) >= CONTRACT
    assert files(Path("one")) - CONTRACT <= {"mold/mount.stl", "pictures/apart.png", "pictures/cut.png"}
    without_sheets(monkeypatch)
    run("two")
    assert len(files(Path("two"))) >= 7
    for name in sorted(files(Path("two"))):
        assert Path("one", name).read_bytes() == Path("two", name).read_bytes(), name
    text = Path("one/plan.json").read_text(encoding="utf-8")
    jsonschema.validate(json.loads(text), plan_schema(), cls=jsonschema.Draft202012Validator)
    assert plan_from_json(text).name == sample().name
    said = capsys.readouterr()
    assert "reading the scan" in said.err
    assert str(Path("one/sheets")) in said.out


def test_json_goes_to_stdout_and_nothing_to_stderr(
    command: types.ModuleType, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    without_sheets(monkeypatch)
    run("out", as_json=True)
    said = capsys.readouterr()
    assert json.loads(said.out)["plan"] == json.loads(Path("out/plan.json").read_text(encoding="utf-8"))
    assert said.err == ""


def test_solids_and_pictures_that_were_written_once_are_not_made_again(
    command: types.ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    drawn: list[str] = []
    real: Callable[..., Any] = Stage._made
    monkeypatch.setattr(Stage, "_made", lambda self, *given: drawn.append(self.name) or real(self, *given))
    without_sheets(monkeypatch)
    run("one")
    assert (drawn, MADE.total()) == (["solid_files", "pictures_of", "drawings_of", "maps_of"], 5)
    run("two")
    assert (drawn, MADE.total()) == (["solid_files", "pictures_of", "drawings_of", "maps_of"], 5)
    assert Path("one/mold/mold.3mf").read_bytes() == Path("two/mold/mold.3mf").read_bytes()


def refusing(*_: Any) -> MadeUp:
    raise NoSafePlan("too-soon", 120.0, 180.0, "s", "Take a slower rubber.")


def test_a_refusal_is_an_exit_code_and_leaves_nothing(
    command: types.ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(command, "make_plan", refusing)
    before = files(Path())

    with pytest.raises(SystemExit) as ended:
        run("out", as_json=True, no_cache=True)
    assert ended.value.code == 4
    assert json.loads(capsys.readouterr().err)["error"]["remedy"] == "Take a slower rubber."
    assert files(Path()) == before


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ('[original]\nfile = "nowhere.off"\nunit = "mm"', "file-missing"),
        (f'[original]\nfile = "{"x" * 400}"\nunit = "mm"', "file-unreadable"),
        ('[original]\nfile = "."\nunit = "mm"', "not-a-file"),
        ('[original]\nfile = "scan.off"\nunit = "mm"\n[shop]\nsheets = "nowhere"', "sheets-missing"),
        ('[original]\nfile = "scan.off"\nunit = "mm"\n[shop]\nsteps = "nowhere.toml"', "file-missing"),
    ],
)
def test_what_the_commission_names_must_be_there(
    command: types.ModuleType, text: str, code: str, capsys: pytest.CaptureFixture[str]
) -> None:
    Path("c.toml").write_text(text)
    with pytest.raises(SystemExit) as ended:
        run("out", as_json=True)
    assert ended.value.code == 3
    assert json.loads(capsys.readouterr().err)["error"]["code"] == code
    assert not Path("out").exists()


def test_the_same_file_is_read_once(command: types.ModuleType, monkeypatch: pytest.MonkeyPatch) -> None:
    count: list[Path] = []
    real: Callable[..., Any] = order.read_with_hash
    monkeypatch.setattr(order, "read_with_hash", lambda path, limits: count.append(path) or real(path, limits))
    for _ in range(3):
        scan = order.scan_of(Path("scan.off"), store_of(None, False)).value
        assert len(scan.mesh.faces) == 4
    Path("scan.off").write_bytes(SCAN.replace(b"100", b"120"))
    assert order.scan_of(Path("scan.off"), store_of(None, False)).value.mesh.vertices.max() == 120
    assert len(count) == 2
