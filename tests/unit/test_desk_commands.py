"""The command line as a person and a program meet it: help, refusals, exit codes, Ctrl-C."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

from moldwright import __version__
from moldwright.desk.command_new import QUESTIONS
from moldwright.desk.exits import ending
from moldwright.errors import ComputationFailed, InputRefused, NoSafePlan, RecordConflict

COMMANDS = ["demo", "new", "look", "plan", "materials"]


def run(*arguments: str, cwd: Path | None = None, typed: str = "") -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, "COLUMNS": "100", "NO_COLOR": "1"}
    return subprocess.run([sys.executable, "-m", "moldwright", *arguments], capture_output=True, text=True, cwd=cwd,
                          input=typed, env=environment, check=False, timeout=60)  # fmt: skip


def test_help_tells_every_command_and_the_exit_codes() -> None:
    said = run("--help")
    assert said.returncode == 0
    assert all(command in said.stdout for command in COMMANDS)
    assert "130" in said.stdout


def test_help_imports_nothing_heavy() -> None:
    heavy = ("numpy", "numba", "scipy", "igl", "trimesh", "pydantic", "typst", "PIL")
    code = "\n".join(
        [
            "import sys, moldwright.desk.main as m",
            "try: m.main()",
            "except SystemExit: pass",
            f"print([name for name in {heavy} if name in sys.modules])",
        ]
    )
    said = subprocess.run([sys.executable, "-c", code, "--help"], capture_output=True, text=True, check=True)
    assert said.stdout.strip().endswith("[]")


def test_version() -> None:
    assert run("--version").stdout.strip() == f"moldwright {__version__}"


def test_the_exit_codes_are_the_families() -> None:
    """As docs/exit-codes.md promises to scripts."""
    families = (InputRefused, NoSafePlan, ComputationFailed, RecordConflict)
    assert [family.exit_code for family in families] == [3, 4, 5, 6]


def test_only_a_reader_of_stdout_who_has_gone_is_no_fault(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended, ending(False, lambda _: "kept"):
        raise BrokenPipeError("a pipe of our own")
    assert ended.value.code == ComputationFailed.exit_code
    assert "a pipe of our own" in capsys.readouterr().err


def test_plan_prints_both_schemas() -> None:
    schemas = json.loads(run("plan", "--schema").stdout)
    assert set(schemas) == {"plan", "commission", "quantities"}
    for schema in schemas.values():
        jsonschema.Draft202012Validator.check_schema(schema)


@pytest.mark.parametrize("arguments", [["plan"], ["plan", "a.toml"], ["nonsense"], ["plan", "--nonsense"]])
def test_usage_is_exit_2(arguments: list[str]) -> None:
    assert run(*arguments).returncode == 2


def test_a_missing_commission_is_refused_in_words_and_as_json(tmp_path: Path) -> None:
    said = run("materials", "check", "nowhere.toml", cwd=tmp_path)
    assert said.returncode == 3
    assert "remedy" in said.stderr
    assert "Traceback" not in said.stderr
    as_json = run("materials", "check", "nowhere.toml", "--json", cwd=tmp_path)
    assert as_json.returncode == 3
    error = json.loads(as_json.stderr)["error"]
    assert set(error) == {"family", "code", "actual", "limit", "unit", "remedy"}
    assert (error["family"], error["code"]) == ("InputRefused", "file-missing")


def test_materials_are_listed_and_shown() -> None:
    listed = json.loads(run("materials", "list", "--json").stdout)
    assert {"rubber", "resin", "powder"} <= {row["kind"] for row in listed}
    shown = json.loads(run("materials", "show", "bronze", "--json").stdout)
    assert shown["true_density_g_ml"]["unit"] == "g/ml"
    refused = run("materials", "show", "bronce")
    assert refused.returncode == 3
    assert "bronze" in refused.stderr


def test_an_own_sheet_is_checked(tmp_path: Path) -> None:
    (tmp_path / "own.toml").write_text('[rubber.latex]\npot_lif = "9 min"\n')
    said = run("materials", "check", "own.toml", cwd=tmp_path)
    assert said.returncode == 3
    assert "pot_lif" in said.stdout + said.stderr


def test_new_writes_a_commission_from_answers(tmp_path: Path) -> None:
    (tmp_path / "stag.stl").write_bytes(b"solid")
    entered = len(QUESTIONS) - 4  # file, name and height are typed; the height tells the unit, which is not asked
    answers = "\n".join(["stag.stl", "", "160 mm", *[""] * entered]) + "\n"
    said = run("new", cwd=tmp_path, typed=answers)
    assert said.returncode == 0, said.stderr
    assert 'height = "160 mm"' in (tmp_path / "commission.toml").read_text(encoding="utf-8")
    again = run("new", cwd=tmp_path, typed=answers)
    assert again.returncode == 3
    assert "--replace" in again.stderr


def test_new_that_is_broken_off_writes_nothing(tmp_path: Path) -> None:
    said = run("new", cwd=tmp_path, typed="")
    assert said.returncode == 3
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(("number", "code"), [(signal.SIGINT, 130), (signal.SIGTERM, 143)])
def test_a_signal_leaves_nothing_half_written(tmp_path: Path, number: signal.Signals, code: int) -> None:
    script = "\n".join(
        [
            "import pathlib, time",
            "from moldwright.desk.exits import ending",
            "from moldwright.making.folder import whole_folder",
            "with ending(False, lambda e: ''), whole_folder(pathlib.Path('plan')) as folder:",
            "    (folder / 'half').write_text('half')",
            "    print('ready', flush=True)",
            "    time.sleep(30)",
        ]
    )
    with subprocess.Popen([sys.executable, "-c", script], cwd=tmp_path, stdout=subprocess.PIPE) as child:
        assert child.stdout is not None
        assert child.stdout.readline() == b"ready\n"
        child.send_signal(number)
        assert child.wait(timeout=20) == code
    assert list(tmp_path.iterdir()) == []


def test_an_unforeseen_fault_is_saved_and_told(tmp_path: Path) -> None:
    script = ("from moldwright.desk.exits import ending\nfrom moldwright.desk.faults import saver\n"
              "with ending(True, saver('count = 3')):\n    raise KeyError('made up')\n")  # fmt: skip
    said = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False,
                          env={**os.environ, "XDG_CACHE_HOME": str(tmp_path)})  # fmt: skip
    assert said.returncode == 5
    error = json.loads(said.stderr)["error"]
    assert error["code"] == "unforeseen"
    saved = next((tmp_path / "moldwright" / "faults").iterdir())
    assert saved.name in error["remedy"]
    assert "count = 3" in saved.read_text()


def test_a_reader_of_stderr_who_has_gone_changes_no_exit_code(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "moldwright", "plan", "nowhere.toml", "--out", "plan"]
    with subprocess.Popen(command, cwd=tmp_path, stderr=subprocess.PIPE) as child:
        assert child.stderr is not None
        child.stderr.close()
        assert child.wait(timeout=60) == 3


def test_pipes_devices_and_links_to_themselves_are_refused_at_once(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "loop").symlink_to("loop")
    (tmp_path / "c.toml").write_text('[original]\nfile = "loop"\nheight = "100 mm"\n')
    ends = (("pipe", "plan"), ("/dev/zero", "plan"), ("loop", "plan"), ("c.toml", "loop"), ("c.toml", "~nobody/plan"))
    for file, out in ends:
        said = run("plan", file, "--out", out, cwd=tmp_path)
        assert said.returncode == 3, said.stderr
        assert "remedy" in said.stderr
