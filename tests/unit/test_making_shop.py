"""Where a shop's records lie, and the name of a bench; folders by the XDG base directory specification 0.8."""

from __future__ import annotations

import platform
from contextlib import closing
from pathlib import Path

import pytest

from moldwright.errors import InputRefused
from moldwright.making.places import data_folder
from moldwright.making.shop import bench_clock, bench_name, files_folder, shop_opened, shop_place

URL = "postgresql://server/shop"


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    for name in ("XDG_DATA_HOME", "MOLDWRIGHT_SHOP", "MOLDWRIGHT_FILES", "MOLDWRIGHT_BENCH"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("HOME", str(tmp_path))
    return tmp_path


def test_records_lie_in_the_data_home(home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """`$XDG_DATA_HOME`, else `$HOME/.local/share`; a path that is not absolute is not used."""
    usual = home / ".local" / "share" / "moldwright"
    assert shop_place("") == str(usual / "shop.db")
    monkeypatch.setenv("XDG_DATA_HOME", "beside")
    assert data_folder() == usual
    monkeypatch.setenv("XDG_DATA_HOME", str(home / "data"))
    assert data_folder() == home / "data" / "moldwright"
    assert data_folder().is_dir()


def test_what_is_told_goes_before_the_usual(home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (home / "link").symlink_to(home / "true")
    assert shop_place(str(home / "link" / "s.db")) == str(home / "true" / "s.db")
    assert shop_place("~/s.db") == str(home / "s.db")
    assert shop_place(URL) == URL
    assert files_folder(shop_place("")) is None, "beside the store's file"
    assert files_folder(URL) == data_folder() / "shop.files"
    monkeypatch.setenv("MOLDWRIGHT_FILES", str(home / "shared"))
    assert {files_folder(place) for place in (URL, str(home / "s.db"))} == {home / "shared"}


def test_a_bench_has_a_name_of_80_letters_at_most(monkeypatch: pytest.MonkeyPatch) -> None:
    assert bench_name() == (platform.node() or "bench")[:80]
    monkeypatch.setenv("MOLDWRIGHT_BENCH", "tablet 2")
    assert bench_name() == "tablet 2"
    monkeypatch.setenv("MOLDWRIGHT_BENCH", "t" * 200)
    assert bench_name() == "t" * 80


def test_a_store_is_opened_where_there_is_a_folder_for_it(home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("MOLDWRIGHT_BENCH", "tablet 2")
    with closing(shop_opened(str(home / "s.db"))) as shop:
        clock = bench_clock(shop, " Kim ")
        assert (clock.bench, clock.by) == ("tablet 2", "Kim")
    assert (home / "s.db").is_file()
    with pytest.raises(InputRefused) as refused:
        shop_opened(str(home / "nowhere" / "s.db"))
    assert refused.value.code == "shop-folder-missing"
