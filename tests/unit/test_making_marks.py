"""The mark of the code that a stage reaches, on small packages written here."""

from __future__ import annotations

from pathlib import Path

import pytest

from moldwright.making.marks import HOME, CodeMarks

FILES = {
    "__init__.py": "__version__ = '1'\n",
    "stage.py": "import numpy\nfrom pack.near.rules import LEAST\nCHILD = ['-m', 'pack.far.child']\n",
    "near/__init__.py": "",
    "near/rules.py": "LEAST = 3\n",
    "near/data/table.toml": "a = 1\n",
    "far/__init__.py": "",
    "far/child.py": "import json\n",
    "unused/__init__.py": "from pack import stage\n",
    "unused/rules.py": "LEAST = 4\n",
    "unused/table.toml": "a = 1\n",
}


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """A package named pack."""
    for name, text in FILES.items():
        path = tmp_path / "pack" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    return tmp_path / "pack"


VOIDING = ["__init__.py", "stage.py", "near/__init__.py", "near/rules.py", "near/data/table.toml", "far/child.py"]


@pytest.mark.parametrize("name", FILES)
def test_the_mark_changes_with_what_is_reached_and_with_nothing_else(home: Path, name: str) -> None:
    before = CodeMarks(home)("pack.stage")
    assert CodeMarks(home)("pack.stage") == before
    (home / name).write_text(FILES[name] + "# changed\n")
    changed = CodeMarks(home)("pack.stage") != before
    assert changed == (name in VOIDING or name == "far/__init__.py")


def test_a_library_counts_by_its_version(home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert CodeMarks(home).reach("pack.stage")[1] == {"numpy"}
    before = CodeMarks(home)("pack.stage")
    monkeypatch.setattr("moldwright.making.marks._versions", lambda: {"numpy": "0.0.made-up"})
    assert CodeMarks(home)("pack.stage") != before


def test_a_memo_saves_reading_and_never_hides_a_change(home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    memo = home.parent / "memo.json"
    first = CodeMarks(home, memo)("pack.stage")
    with monkeypatch.context() as patch:
        patch.setattr(Path, "read_bytes", lambda path: pytest.fail(f"{path} was read again"))
        assert CodeMarks(home, memo)("pack.stage") == first
    (home / "near/rules.py").write_text("LEAST = 9\n")
    second = CodeMarks(home, memo)("pack.stage")
    assert second == CodeMarks(home)("pack.stage") != first


@pytest.mark.parametrize("torn", ["", "[]", '{"home": 3}', '{"files": {"a": 1}}', "\x00"])
def test_a_torn_memo_is_no_memo(home: Path, torn: str) -> None:
    memo = home.parent / "memo.json"
    memo.write_text(torn)
    assert CodeMarks(home, memo)("pack.stage") == CodeMarks(home)("pack.stage")


def test_a_room_that_the_stage_does_not_use_is_not_reached() -> None:
    """The house's own stages: solids do not depend on sheets, prices or steps."""
    marks = CodeMarks(HOME)
    rooms = {path.split("/")[1] for path in marks.reach("moldwright.job.shelling")[0]}
    assert {"geometry", "mold", "original"} <= rooms
    others = {"steps", "sheets", "quantities", "materials", "mixing", "cast", "cure", "making", "desk", "commission"}
    assert not rooms & others
    assert "moldwright/scan/stl.py" in marks.reach("moldwright.scan.read")[0], "what the child process reads with"
