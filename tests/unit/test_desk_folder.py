"""A plan's folder appears whole or not at all, and nothing that is no plan is ever replaced."""

from __future__ import annotations

from pathlib import Path

import pytest

from moldwright.commission.orders import EditionOrder
from moldwright.desk.disk_store import DiskStore
from moldwright.desk.out_folder import whole_folder, write_file
from moldwright.errors import InputRefused


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


def test_a_file_is_written_whole(tmp_path: Path) -> None:
    write_file(tmp_path / "a.toml", "first")
    write_file(tmp_path / "a.toml", "second\n")
    assert (tmp_path / "a.toml").read_bytes() == b"second\n"
    assert len(list(tmp_path.iterdir())) == 1


def test_the_disk_store_survives_the_process_and_torn_files(tmp_path: Path) -> None:
    DiskStore(tmp_path / "c").put("key", EditionOrder(7))
    assert DiskStore(tmp_path / "c").get("key", EditionOrder) == EditionOrder(7)
    assert DiskStore(tmp_path / "c").get("other", EditionOrder) is None
    kept = next((tmp_path / "c").glob("*-key.npz"))
    kept.write_bytes(b"torn")
    assert DiskStore(tmp_path / "c").get("key", EditionOrder) is None


def test_the_disk_store_knows_results_of_other_code(tmp_path: Path) -> None:
    DiskStore(tmp_path, mark="before").put("key", EditionOrder(7))
    assert DiskStore(tmp_path, mark="after").get("key", EditionOrder) is None
    assert DiskStore(tmp_path, mark="before").get("key", EditionOrder) == EditionOrder(7)


def test_the_disk_store_drops_the_oldest(tmp_path: Path) -> None:
    store = DiskStore(tmp_path, most_bytes=1500)
    for number in range(8):
        store.put(f"k{number}", EditionOrder(number))
    kept = list(tmp_path.glob("*.npz"))
    assert 1 <= len(kept) < 8
    assert sum(path.stat().st_size for path in kept) <= 1500


def test_a_store_that_cannot_write_still_remembers(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("no folder")
    store = DiskStore(tmp_path / "file")
    store.put("key", EditionOrder(7))
    assert store.get("key", EditionOrder) == EditionOrder(7)
