"""`moldwright plan` around a planning that is made up here: the folder's files, refusals, JSON, what is kept."""

from __future__ import annotations

import importlib
import json
import sys
import types
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from sheets_fixture import mold_meshes
from sheets_fixture import plan as sample

from moldwright.desk.exits import ending
from moldwright.errors import NoSafePlan
from moldwright.geometry.mesh import Mesh
from moldwright.plan.json_schema import plan_schema
from moldwright.plan.json_text import plan_from_json
from moldwright.plan.plan import Plan

CONTRACT = {
    "plan.json", "mold/original.stl", "mold/glove.stl", "mold/gloved.stl", "mold/shell-1.stl", "mold/shell-2.stl",
    "mold/mold.3mf", "sheets/bench-a4.pdf", "sheets/bench-letter.pdf", "sheets/shopping-a4.pdf",
    "sheets/shopping-letter.pdf",
}  # fmt: skip
SCAN = b"OFF\n4 4 0\n0 0 0\n100 0 0\n0 100 0\n0 0 100\n3 0 2 1\n3 0 1 3\n3 1 2 3\n3 0 3 2\n"


@dataclass(frozen=True)
class Planned:
    plan: Plan
    meshes: dict[str, Mesh]


def planned(*_: Any) -> Planned:
    made = mold_meshes(16)
    solids = {"original": made.original, "glove": made.glove, "gloved": made.gloved}
    solids |= {"mount": made.plinth} if made.plinth else {}
    shells = {f"shell-{n + 1}": piece for n, piece in enumerate(made.shell)}
    return Planned(sample(), {f"mold/{name}.stl": mesh for name, mesh in (solids | shells).items()})


@pytest.fixture
def command(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> types.ModuleType:
    """The command's module with the made-up planning behind it, and a commission in the current folder."""
    stub = types.ModuleType("moldwright.job.planning")
    stub.make_plan = planned  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "moldwright.job.planning", stub)
    monkeypatch.delitem(sys.modules, "moldwright.desk.command_plan", raising=False)
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    Path("scan.off").write_bytes(SCAN)
    Path("c.toml").write_text('[original]\nfile = "scan.off"\nunit = "mm"\n')
    module = importlib.import_module("moldwright.desk.command_plan")
    monkeypatch.delitem(sys.modules, "moldwright.desk.command_plan")
    return module


def without_sheets(monkeypatch: pytest.MonkeyPatch) -> None:
    """Sheets take seconds and are tested in their own room."""
    monkeypatch.setattr("moldwright.desk.write_plan.draw", lambda meshes: None)
    monkeypatch.setattr("moldwright.desk.write_plan.write_sheets", lambda plan, pictures, folder: None)


def files(folder: Path) -> set[str]:
    return {str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file()}


def test_the_contracts_files_and_the_same_bytes_twice(
    command: types.ModuleType, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    command.run_plan(Path("c.toml"), Path("one"))
    assert files(Path("one")) >= CONTRACT
    assert files(Path("one")) - CONTRACT <= {"mold/mount.stl"}
    without_sheets(monkeypatch)
    command.run_plan(Path("c.toml"), Path("two"))
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
    command.run_plan(Path("c.toml"), Path("out"), as_json=True)
    said = capsys.readouterr()
    assert json.loads(said.out)["plan"] == json.loads(Path("out/plan.json").read_text(encoding="utf-8"))
    assert said.err == ""


def refusing(*_: Any) -> Planned:
    raise NoSafePlan("too-soon", 120.0, 180.0, "s", "Take a slower rubber.")


def test_a_refusal_is_an_exit_code_and_leaves_nothing(
    command: types.ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(command, "make_plan", refusing)
    before = files(Path())

    def run() -> None:
        with ending(True, lambda error: "nowhere"):
            command.run_plan(Path("c.toml"), Path("out"), as_json=True, no_cache=True)

    with pytest.raises(SystemExit) as ended:
        run()
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
    with pytest.raises(SystemExit) as ended, ending(True, lambda error: "nowhere"):
        command.run_plan(Path("c.toml"), Path("out"), as_json=True)
    assert ended.value.code == 3
    assert json.loads(capsys.readouterr().err)["error"]["code"] == code
    assert not Path("out").exists()


def test_the_same_file_is_read_once(command: types.ModuleType, monkeypatch: pytest.MonkeyPatch) -> None:
    from moldwright.desk import gather  # noqa: PLC0415

    count: list[Path] = []
    real: Callable[..., Any] = gather.read_with_hash
    monkeypatch.setattr(gather, "read_with_hash", lambda path, limits: count.append(path) or real(path, limits))
    for _ in range(3):
        scan = gather.scan_of(Path("scan.off"), command.store_of(None, False))
        assert len(scan.mesh.faces) == 4
    Path("scan.off").write_bytes(SCAN.replace(b"100", b"120"))
    assert gather.scan_of(Path("scan.off"), command.store_of(None, False)).mesh.vertices.max() == 120
    assert len(count) == 2
