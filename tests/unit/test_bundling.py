"""The tool that bundles the desk's pages: found by walking, weighed, whole or not at all, each license with it.

What it makes of the real pages is seen by the tests in a browser. Sizes are arithmetic: random bytes cannot be packed.
"""

from __future__ import annotations

import json
import random
from pathlib import Path

import pytest
from tools.bundling import esbuild, make, manifest, notices, sources, weight
from tools.bundling.esbuild import Bundles, Output
from tools.bundling.places import LOCK, BundlingFailed

KB = 1000


def script(folder: Path, name: str, kb: int) -> str:
    """A file of so many kB that no packing makes smaller."""
    (folder / name).write_bytes(random.Random(name).randbytes(kb * KB))
    return name


@pytest.fixture
def web(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A tree of pages elsewhere."""
    for module, name, place in (
        (sources, "PARTS", "parts"), (sources, "PAGES", "pages"), (sources, "WEB", "."), (sources, "ROOT", "."),
        (make, "BUILT", "built"), (make, "WEB", "."),
    ):  # fmt: skip
        monkeypatch.setattr(module, name, tmp_path / place)
    for name in (
        "parts/tokens.css", "parts/base.css", "parts/base.ts", "pages/today/element.ts", "pages/today/style.css",
        "pages/plain/page.html", "pages/days/element.ts", "tsconfig.json",
    ):  # fmt: skip
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(f"/* {name} */")
    monkeypatch.setattr(sources, "LOCK", tmp_path / "tsconfig.json")
    monkeypatch.setattr(sources, "__file__", str(tmp_path / "tools" / "sources.py"))
    return tmp_path


def test_pages_are_found_by_walking_and_what_is_laid_over_comes_later(web: Path) -> None:
    (web / "parts" / "alarm.css").write_text("")
    found = sources.sources()
    assert list(found.scripts) == ["base", "days", "today"]
    assert list(found.styles) == ["today"]
    assert [path.name for path in found.shared_styles] == ["tokens.css", "base.css", "alarm.css"]
    assert found.worker is None
    (web / "parts" / "worker.ts").write_text("")
    assert sources.sources().worker == web / "parts" / "worker.ts"


@pytest.mark.parametrize("name", ["pages/days/element.ts", "pages/today/style.css", "parts/new.ts", "tsconfig.json"])
def test_every_source_counts_and_a_template_does_not(web: Path, name: str) -> None:
    before = sources.made_from()
    (web / "pages" / "plain" / "page.html").write_text("other words")
    assert sources.made_from() == before
    (web / name).write_text("changed")
    assert sources.made_from() != before


def test_a_page_weighs_all_it_loads_at_once_and_the_shared_script(tmp_path: Path) -> None:
    told = {
        "scripts": {"base": script(tmp_path, "base.js", 20), "mold": script(tmp_path, "mold.js", 30)},
        "at_once": {"base": [script(tmp_path, "both.js", 100)], "mold": ["both.js", script(tmp_path, "own.js", 90)]},
    }
    script(tmp_path, "later.js", 500)
    assert weight.first_kb("mold", told, tmp_path) == pytest.approx(20 + 30 + 100 + 90, abs=1)
    weight.refuse_heavy(told, tmp_path)
    script(tmp_path, "own.js", 101)
    with pytest.raises(BundlingFailed, match=r"page mold weighs 251\.\d kB"):
        weight.refuse_heavy(told, tmp_path)


def test_what_is_imported_by_what_is_imported_counts_and_what_is_fetched_later_does_not() -> None:
    outputs = (
        Output("today-A1.js", "src/today/element.ts", ("shared-B2.js",), ()),
        Output("shared-B2.js", None, ("shared-C3.js",), ()),
        Output("shared-C3.js", None, ("shared-B2.js",), ()),
        Output("shared-D4.js", None, (), ()),
    )
    assert manifest.loads("today-A1.js", outputs) == {"shared-B2.js", "shared-C3.js"}


def test_esbuilds_word_on_an_output_is_read() -> None:
    told = {
        "entryPoint": "src/moldwright/web/pages/mold/element.ts",
        "imports": [
            {"path": "/tmp/x/shared-B2.js", "kind": "import-statement"},
            {"path": "l.js", "kind": "dynamic-import"},
        ],
        "inputs": {"node_modules/three/src/Three.js": {"bytesInOutput": 1}},
    }
    read = esbuild.output("../x/mold-A1.js", told)
    assert (read.file, read.at_once) == ("mold-A1.js", ("shared-B2.js",))
    assert read.inputs[0].endswith("/node_modules/three/src/Three.js")


def test_what_the_folder_lacks_is_named(tmp_path: Path) -> None:
    told = {"scripts": {"base": script(tmp_path, "base.js", 1)}, "at_once": {"base": ["gone.js"]}, "styles": {},
            "fonts": ["gone.woff2"], "worker": "worker.js"}  # fmt: skip
    assert manifest.missing(told, tmp_path) == ["gone.js", "gone.woff2", "worker.js"]


def test_a_failure_leaves_the_pages_of_before_and_no_litter(web: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(make.node, "lay_packages", lambda: None)
    (web / "built").mkdir()
    (web / "built" / "manifest.json").write_text('{"scripts": {}, "made_from": "before"}')

    def fails(found: object, into: Path) -> Bundles:
        (into / "half.js").write_text("half")
        raise BundlingFailed("esbuild: no")

    monkeypatch.setattr(esbuild, "bundle", fails)
    with pytest.raises(BundlingFailed, match="esbuild: no"):
        make.pages()
    assert [path.name for path in (web / "built").iterdir()] == ["manifest.json"]
    assert not list(web.glob(".built-*"))


def test_pages_are_made_once_and_again_when_a_file_of_theirs_is_gone(
    web: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(make.node, "lay_packages", lambda: None)
    times: list[Path] = []

    def makes(found: object, into: Path) -> Bundles:
        times.append(into)
        (into / "base-A1.js").write_text("1")
        return Bundles((Output("base-A1.js", "base.ts", (), ()),), (), ())

    monkeypatch.setattr(esbuild, "bundle", makes)
    make.pages()
    make.pages()
    assert len(times) == 1
    assert json.loads((web / "built" / "manifest.json").read_text())["scripts"] == {"base": "base-A1.js"}
    (web / "built" / "base-A1.js").unlink()
    make.pages()
    assert len(times) == 2


def test_a_package_without_its_license_is_not_bundled(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(notices, "MODULES", tmp_path)
    for name in ("@one/deep", "two"):
        (tmp_path / name).mkdir(parents=True)
        (tmp_path / name / "package.json").write_text(json.dumps({"name": name, "version": "1.2", "license": "MIT"}))
    (tmp_path / "@one/deep/LICENSE").write_text("Do as you like")
    text = notices.notices([str(tmp_path / "@one/deep/files/a.woff2"), "/elsewhere/own.ts"])
    assert "@one/deep 1.2 (MIT)" in text
    assert "Do as you like" in text
    with pytest.raises(BundlingFailed, match="two has no license file"):
        notices.notices([str(tmp_path / "two/index.js")])


def test_the_list_of_npms_packages_names_no_host_and_hashes_each() -> None:
    text = LOCK.read_text(encoding="utf-8")
    assert "://" not in text
    assert '"resolved"' not in text
    packages = {name: told for name, told in json.loads(text)["packages"].items() if name}
    assert len(packages) > 10
    assert all(told["integrity"].startswith("sha512-") for told in packages.values())
