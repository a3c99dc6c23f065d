"""A plan's folder appears whole or not at all, and nothing that is no plan is ever replaced."""

from __future__ import annotations

import errno
import os
import signal
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from moldwright.disk.whole_file import write_file
from moldwright.errors import InputRefused
from moldwright.making import exchange
from moldwright.making.folder import whole_folder


def write(out: Path, text: str) -> None:
    with whole_folder(out) as folder:
        (folder / "plan.json").write_text('{"schema_version": 1}')
        (folder / "note").write_text(text)


def test_a_new_folder_and_a_plan_replaced_whole(tmp_path: Path) -> None:
    out = tmp_path / "deep" / "plan"
    write(out, "first")
    (out / "left-over.pdf").write_text("old")
    write(out, "second")
    assert sorted(p.name for p in out.iterdir()) == ["note", "plan.json"]
    assert (out / "note").read_text() == "second"
    assert [p.name for p in out.parent.iterdir()] == ["plan"]
    assert out.stat().st_mode & 0o077 == (out.parent.stat().st_mode & 0o077)


@pytest.mark.parametrize("interruption", [KeyboardInterrupt, SystemExit, RuntimeError])
def test_a_failed_run_leaves_nothing(tmp_path: Path, interruption: type[BaseException]) -> None:
    def interrupted() -> None:
        with whole_folder(tmp_path / "plan") as folder:
            (folder / "half").write_text("half")
            raise interruption

    with pytest.raises(interruption):
        interrupted()
    assert list(tmp_path.iterdir()) == []


def test_a_failed_run_leaves_the_earlier_plan(tmp_path: Path) -> None:
    write(tmp_path / "plan", "first")

    def failing() -> None:
        with whole_folder(tmp_path / "plan"):
            raise InputRefused("made-up", "made up")

    with pytest.raises(InputRefused):
        failing()
    assert (tmp_path / "plan" / "note").read_text() == "first"


@pytest.mark.parametrize("content", ["{}", "no json", '{"schema_version": "1"}', "[]"])
def test_another_folder_is_refused_and_untouched(tmp_path: Path, content: str) -> None:
    out = tmp_path / "photos"
    out.mkdir()
    (out / "plan.json").write_text(content)
    with pytest.raises(InputRefused, match="out-not-empty"):
        write(out, "no")
    assert (out / "plan.json").read_text() == content
    assert [p.name for p in tmp_path.iterdir()] == ["photos"]


def test_a_file_in_its_place_is_refused(tmp_path: Path) -> None:
    (tmp_path / "plan").write_text("a file")
    with pytest.raises(InputRefused, match="out-no-folder"):
        write(tmp_path / "plan", "no")
    with pytest.raises(InputRefused, match="out-"):
        write(tmp_path / "plan" / "under", "no")


def test_the_inputs_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "plan.json").write_text('{"schema_version": 1}')
    scan = tmp_path / "stag.stl"
    scan.write_text("scan")
    with pytest.raises(InputRefused, match="out-holds-input"), whole_folder(tmp_path, (scan,)):
        pass
    assert scan.exists()


@pytest.mark.parametrize("place", ["n" * 300, "/proc/moldwright-plan"])
def test_a_place_where_no_folder_can_be_is_refused(place: str, tmp_path: Path) -> None:
    """A name past 255 bytes; a file system that makes no files."""
    with pytest.raises(InputRefused, match="out-not-writable"), whole_folder(tmp_path / place):
        pass


def test_a_name_that_is_too_long_shall_be_shorter(tmp_path: Path) -> None:
    with pytest.raises(InputRefused) as caught, whole_folder(tmp_path / ("n" * 300)):
        pass
    assert caught.value.remedy == "Name it shorter."


def test_parents_that_were_made_go_with_what_failed(tmp_path: Path) -> None:
    with pytest.raises(KeyError), whole_folder(tmp_path / "n1" / "n2" / "n3"):
        raise KeyError("made up")
    assert not list(tmp_path.iterdir())
    with whole_folder(tmp_path / "n1" / "n2" / "n3") as folder:
        (folder / "plan.json").write_text("{}")
    assert (tmp_path / "n1" / "n2" / "n3" / "plan.json").exists()


def test_a_file_is_written_whole(tmp_path: Path) -> None:
    write_file(tmp_path / "a.toml", "first")
    write_file(tmp_path / "a.toml", "second\n")
    assert (tmp_path / "a.toml").read_bytes() == b"second\n"
    assert len(list(tmp_path.iterdir())) == 1


def test_a_long_name_of_many_bytes_is_written_too(tmp_path: Path) -> None:
    """84 letters of three bytes each, 252 of the 255 that file systems take."""
    name = "\u20ac" * 84
    write_file(tmp_path / name, "whole")
    assert [path.name for path in tmp_path.iterdir()] == [name]


LOCK_AND_WAIT = """
import pathlib, sys
from moldwright.making.folder import whole_folder
with whole_folder(pathlib.Path(sys.argv[1])) as folder:
    (folder / "half").write_text("half")
    print("ready", flush=True)
    sys.stdin.readline()
    (folder / "plan.json").write_text('{"schema_version": 1}')
"""


def another(out: Path, script: str = LOCK_AND_WAIT) -> subprocess.Popen[str]:
    """Another process that has begun to write the same folder."""
    command = [sys.executable, "-c", script, str(out)]
    child = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    assert child.stdout is not None
    assert child.stdout.readline() == "ready\n"
    return child


def test_a_second_command_to_the_same_folder_is_refused_and_the_first_goes_on(tmp_path: Path) -> None:
    with another(tmp_path / "plan") as first:
        with pytest.raises(InputRefused, match="out-in-use"):
            write(tmp_path / "plan", "second")
        write(tmp_path / "other", "beside it")
        first.communicate("go on\n")
    assert first.returncode == 0
    assert (tmp_path / "plan" / "half").read_text() == "half"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["other", "plan"]


def test_what_a_killed_command_left_is_swept_by_the_next(tmp_path: Path) -> None:
    write(tmp_path / "plan", "first")
    (tmp_path / ".mine.part").mkdir()
    with another(tmp_path / "plan") as killed:
        killed.kill()
    assert (tmp_path / "plan" / "note").read_text() == "first"
    assert len(list(tmp_path.iterdir())) == 3, "it left its hidden folder"
    write(tmp_path / "plan", "second")
    assert (tmp_path / "plan" / "note").read_text() == "second"
    assert not (tmp_path / "plan" / "half").exists()
    assert sorted(path.name for path in tmp_path.iterdir()) == [".mine.part", "plan"], "only what is ours is swept"


def test_temporary_files_are_swept_too(tmp_path: Path) -> None:
    before = tempfile.gettempdir()
    with whole_folder(tmp_path / "plan") as folder:
        (folder / "plan.json").write_text('{"schema_version": 1}')
        assert Path(tempfile.mkdtemp()).is_relative_to(tmp_path)
    assert tempfile.gettempdir() == before
    assert [path.name for path in tmp_path.iterdir()] == ["plan"]


WRITE_OFTEN = """
import pathlib, sys
from moldwright.making.folder import whole_folder
from moldwright.errors import InputRefused
done = 0
while done < 40:
    try:
        with whole_folder(pathlib.Path(sys.argv[1])) as folder:
            (folder / "plan.json").write_text('{"schema_version": 1}')
            (folder / "note").write_text(sys.argv[2])
    except InputRefused as refused:
        assert refused.code == "out-in-use", refused
        continue
    done += 1
"""


def test_three_commands_at_once_and_the_folder_is_never_missing_or_half(tmp_path: Path) -> None:
    """Forty writes by each of three processes, while a fourth looks: every look finds a whole plan."""
    out = tmp_path / "plan"
    write(out, "0")
    writers = [subprocess.Popen([sys.executable, "-c", WRITE_OFTEN, str(out), str(n)]) for n in range(3)]
    looks, missing = 0, 0
    while any(writer.poll() is None for writer in writers):
        looks += 1
        try:
            held = os.open(out, os.O_RDONLY | os.O_DIRECTORY)
        except FileNotFoundError:
            missing += 1
            continue
        os.close(held)
    assert [writer.returncode for writer in writers] == [0, 0, 0]
    assert looks > 100
    assert missing == 0
    assert (out / "note").read_text() in "012"
    assert [path.name for path in tmp_path.iterdir()] == ["plan"]


def test_without_an_exchange_two_steps_do(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def unknown(one: bytes, other: bytes) -> None:
        raise OSError(errno.ENOSYS, "made up")

    monkeypatch.setattr(exchange, "_exchange", unknown)
    write(tmp_path / "plan", "first")
    write(tmp_path / "plan", "second")
    assert (tmp_path / "plan" / "note").read_text() == "second"
    assert [path.name for path in tmp_path.iterdir()] == ["plan"]


WRITE_FILE_AND_DIE = """
import os, pathlib, signal, sys
from moldwright.disk import whole_file
whole_file.os.truncate = lambda *_: os.kill(os.getpid(), signal.SIGKILL)
whole_file.write_file(pathlib.Path(sys.argv[1]), "never")
"""


def test_a_file_left_half_written_is_written_over(tmp_path: Path) -> None:
    write_file(tmp_path / "a.toml", "first")
    died = subprocess.run([sys.executable, "-c", WRITE_FILE_AND_DIE, str(tmp_path / "a.toml")], check=False)
    assert died.returncode == -signal.SIGKILL
    assert len(list(tmp_path.iterdir())) == 2
    write_file(tmp_path / "a.toml", "second")
    assert [(path.name, path.read_text()) for path in tmp_path.iterdir()] == [("a.toml", "second")]
