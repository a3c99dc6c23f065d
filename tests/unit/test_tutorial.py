"""The tutorial's commands run as they stand, in order, in a folder of their own."""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

TUTORIAL = (Path(__file__).parents[2] / "docs" / "tutorial.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"```console\n(.*?)```", TUTORIAL, flags=re.DOTALL)
COMMANDS = [line[2:] for block in BLOCKS for line in block.splitlines() if line.startswith("$ ")]
SMALL = re.findall(r"```toml\n(.*?)```", TUTORIAL, flags=re.DOTALL)[0]


def run(command: str, folder: Path) -> subprocess.CompletedProcess[str]:
    program, *arguments = shlex.split(command)
    assert program == "moldwright"
    own = {**os.environ, "MOLDWRIGHT_SHOP": str(folder / "shop.db")}
    return subprocess.run([sys.executable, "-m", "moldwright", *arguments], cwd=folder, capture_output=True, text=True,
                          check=False, timeout=600, env=own)  # fmt: skip


def test_it_has_commands() -> None:
    assert {shlex.split(command)[1] for command in COMMANDS} == {
        "demo", "look", "plan", "cup", "photos", "materials", "bench", "lot", "shop",
    }  # fmt: skip


@pytest.mark.parametrize("command", [command for command in COMMANDS if " materials " in command])
def test_its_quick_commands_run(command: str, tmp_path: Path) -> None:
    said = run(command, tmp_path)
    assert said.returncode == 0, said.stderr


@pytest.mark.slow
def test_all_its_commands_run_in_order(tmp_path: Path) -> None:
    (tmp_path / "small.toml").write_text(SMALL, encoding="utf-8")
    for command in COMMANDS:
        said = run(command, tmp_path)
        assert said.returncode == 0, f"{command}\n{said.stderr}"
    for folder in ("otter/plan", "small-plan"):
        assert (tmp_path / folder / "plan.json").is_file()
        assert (tmp_path / folder / "sheets" / "bench-a4.pdf").read_bytes()[:5] == b"%PDF-"
