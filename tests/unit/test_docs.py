"""What is written about the code is true: documented parameters, commands, keys, exit codes, sizes of files."""

from __future__ import annotations

import ast
import re
import tomllib
from collections import Counter
from pathlib import Path

import pytest
import typer.main

from moldwright import __version__
from moldwright.commission.keys import keys, record_keys
from moldwright.desk.exits import DONE, ENDED, STOPPED
from moldwright.desk.main import app
from moldwright.errors import ComputationFailed, InputRefused, NoSafePlan, RecordConflict

ROOT = Path(__file__).parents[2]
DOCS = ROOT / "docs"
PYTHON = sorted(path for folder in ("src", "tests", "benchmarks") for path in (ROOT / folder).rglob("*.py"))
SOURCE = [path for path in PYTHON if path.is_relative_to(ROOT / "src")]
WHOLE_ROOMS = {"geometry", "mold", "original"}
"""Rooms whose every public function tells its parameters and its source."""
FAMILIES = (InputRefused, NoSafePlan, ComputationFailed, RecordConflict)
LONGEST = 300
"""Lines of a module of the package; a test's file may have a third more."""


def name_of(path: Path) -> str:
    return str(path.relative_to(ROOT))


def room_of(path: Path) -> str:
    return path.relative_to(ROOT / "src" / "moldwright").parts[0]


def documented(text: str) -> tuple[set[str], set[str]]:
    """The names that head an entry under "Parameters", and all that stand before a " : " anywhere in it.

    Entries look like "a : ...", "a, b : ..." or "a : ...; b : ..." and "a : .... b : ..." on one line.
    """
    section = re.search(r"^ *Parameters\n *-+\n(.*?)(?=^ *\n *[A-Z>`]|\Z)", text, flags=re.MULTILINE | re.DOTALL)
    if section is None:
        return set(), set()
    lines = section[1].splitlines()
    indent = min((len(line) - len(line.lstrip()) for line in lines if line.strip()), default=0)
    heads = [line[: line.index(" : ")] for line in lines if " : " in line and line[indent : indent + 1].strip()]
    every = re.findall(r"((?:\*{0,2}\w+, )*\*{0,2}\w+) : ", section[1])
    return names_in(heads), names_in(every)


def names_in(groups: list[str]) -> set[str]:
    return {name.strip().lstrip("*") for group in groups for name in group.split(",")}


def signature(node: ast.FunctionDef) -> list[str]:
    arguments = node.args
    every = [*arguments.posonlyargs, *arguments.args, *arguments.kwonlyargs, arguments.vararg, arguments.kwarg]
    return [argument.arg for argument in every if argument is not None and argument.arg not in ("self", "cls")]


def fields_of(node: ast.ClassDef) -> list[str]:
    own = [s.target.id for s in node.body if isinstance(s, ast.AnnAssign) and isinstance(s.target, ast.Name)]
    init = next((s for s in node.body if isinstance(s, ast.FunctionDef) and s.name == "__init__"), None)
    return [*own, *(signature(init) if init else [])]


@pytest.mark.parametrize("path", SOURCE, ids=name_of)
def test_documented_parameters_are_the_signature(path: Path) -> None:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not isinstance(node, ast.FunctionDef | ast.ClassDef):
            continue
        heads, told = documented(ast.get_docstring(node) or "")
        if not told:
            continue
        real = set(signature(node) if isinstance(node, ast.FunctionDef) else fields_of(node))
        assert heads <= real, f"{node.name}, line {node.lineno}: no such parameter"
        assert real <= told or isinstance(node, ast.ClassDef), f"{node.name}, line {node.lineno}: not documented"


def public_functions(tree: ast.Module) -> list[tuple[ast.FunctionDef, bool]]:
    """Functions and methods that others may call, and whether each is a property; stubs of a Protocol left out."""
    found = [node for node in tree.body if isinstance(node, ast.FunctionDef)]
    for kind in (node for node in tree.body if isinstance(node, ast.ClassDef)):
        if not any(isinstance(base, ast.Name) and base.id == "Protocol" for base in kind.bases):
            found += [node for node in kind.body if isinstance(node, ast.FunctionDef)]
    plain = {"property", "cached_property"}
    return [
        (node, any(isinstance(mark, ast.Name) and mark.id in plain for mark in node.decorator_list))
        for node in found
        if not node.name.startswith("_")
    ]


def lacks(node: ast.FunctionDef, is_property: bool) -> list[str]:
    """What a function's docstring does not say: what it is, every parameter, and where it comes from."""
    text = ast.get_docstring(node) or ""
    missing = [] if text else ["a docstring"]
    missing += sorted(set(signature(node)) - documented(text)[1])
    told = is_property or re.search(r"\bsource\b|\bour own\b", text, flags=re.IGNORECASE)
    return missing if told else [*missing, "a source"]


@pytest.mark.parametrize("path", [p for p in SOURCE if room_of(p) in WHOLE_ROOMS], ids=name_of)
def test_every_public_function_tells_its_parameters_and_its_source(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    wrong = {node.name: found for node, prop in public_functions(tree) if (found := lacks(node, prop))}
    assert not wrong


def test_what_a_docstring_lacks_is_found() -> None:
    text = 'def f(a, b):\n    """It.\n\n    Parameters\n    ----------\n    a : one [mm].\n    """'
    tree = ast.parse(f"{text}\nclass C:\n    @property\n    def p(self):\n        return 1")
    assert [lacks(*found) for found in public_functions(tree)] == [["b", "a source"], ["a docstring"]]


def test_the_comparison_can_fail() -> None:
    entries = "a, b : two [mm]; c : three. d : four\n    more : of it\n*e : rest"
    text = f"A.\n\nParameters\n----------\n{entries}\n\nSource: x : y"
    assert documented(text) == ({"a", "b", "e"}, {"a", "b", "c", "d", "e", "more"})


@pytest.mark.parametrize("path", SOURCE, ids=name_of)
def test_every_module_says_what_it_is(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert not text.strip() or ast.get_docstring(ast.parse(text)), "a sentence on top"


@pytest.mark.parametrize("path", PYTHON, ids=name_of)
def test_files_stay_short(path: Path) -> None:
    lines = len(path.read_text(encoding="utf-8").splitlines())
    most = LONGEST if path in SOURCE else LONGEST * 4 // 3
    assert lines <= most, f"{lines} lines: split it"


def test_no_two_classes_have_one_name() -> None:
    trees = [ast.parse(path.read_text(encoding="utf-8")) for path in SOURCE]
    names = [node.name for tree in trees for node in ast.walk(tree) if isinstance(node, ast.ClassDef)]
    assert {name: count for name, count in Counter(names).items() if count > 1 and not name.startswith("_")} == {}


def test_no_room_holds_more_than_a_sixth() -> None:
    """At most 16 % of the package's lines in one room: it is where a second noun moves in."""
    lines: Counter[str] = Counter()
    for path in SOURCE:
        lines[path.relative_to(ROOT / "src" / "moldwright").parts[0]] += len(path.read_text("utf-8").splitlines())
    room, most = lines.most_common(1)[0]
    assert most <= 0.16 * lines.total(), f"{room}: {most} of {lines.total()}"


def commands() -> dict[str, str]:
    """Every command and its help."""
    group = typer.main.get_command(app)
    found: dict[str, str] = {}
    for name, command in group.commands.items():  # type: ignore[attr-defined]
        inner = getattr(command, "commands", {})
        found |= {f"{name} {sub}": sub_command.help or "" for sub, sub_command in inner.items()} or {
            name: command.help or ""
        }
    return found


def test_every_command_is_documented() -> None:
    told = (DOCS / "commands.md").read_text(encoding="utf-8")
    for name, text in commands().items():
        assert f"`moldwright {name}" in told, name
        assert len(text) > 20, name


def test_every_option_is_documented() -> None:
    told = (DOCS / "commands.md").read_text(encoding="utf-8")
    group = typer.main.get_command(app)
    inner = [c for command in group.commands.values() for c in getattr(command, "commands", {}).values()]  # type: ignore[attr-defined]
    for command in [*group.commands.values(), *inner]:  # type: ignore[attr-defined]
        options = [name for parameter in command.params for name in parameter.opts if name.startswith("--")]
        assert all(f"`{name}" in told for name in options), f"{command.name}: {options}"


def test_every_exit_code_is_documented() -> None:
    """Those of the families of refusals, 2 for a command line that is not understood, and those of an early end."""
    page = (DOCS / "exit-codes.md").read_text(encoding="utf-8")
    told = re.findall(r"^\| (\d+) \| (\w+) \|", page, flags=re.MULTILINE)
    own = {DONE: "done", 2: "usage", STOPPED: "stopped", ENDED: "ended"}
    families = {family.exit_code: family.__name__ for family in FAMILIES}
    assert {int(code): name for code, name in told} == own | families


def test_every_key_of_a_commission_is_documented() -> None:
    told = (DOCS / "commission.md").read_text(encoding="utf-8")
    for rows in (*keys().values(), *record_keys().values()):
        for key in rows.values():
            assert f"| `{key.name}` | {key.about} |" in told, key.dotted


def test_one_version() -> None:
    assert tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]["version"] == __version__
    assert f"## {__version__}" in (ROOT / "CHANGELOG.md").read_text(encoding="utf-8")


LISTS = ("constraints.txt", "constraints-pages.txt", "constraints-dev.txt")


@pytest.mark.parametrize(("name", "least"), [(LISTS[0], 20), (LISTS[1], 1), (LISTS[2], 20)])
def test_the_constraints_name_no_host_and_hash_every_package(name: str, least: int) -> None:
    text = (ROOT / name).read_text()
    assert "://" not in text
    assert "index" not in text
    pinned = re.findall(r"^([A-Za-z0-9._-]+)==[^ ]+.* \\\n    --hash=sha256:[0-9a-f]{64}", text, flags=re.MULTILINE)
    assert len(pinned) == len(re.findall(r"^[A-Za-z0-9].*==", text, flags=re.MULTILINE)) >= least


def test_each_level_installs_what_it_needs_and_no_package_stands_in_two_lists() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    running, pages, testing = (pinned_in(name) for name in LISTS)
    assert wanted(project["dependencies"]) <= running
    assert wanted(project["optional-dependencies"]["pages"]) <= running | pages
    assert wanted(project["optional-dependencies"]["dev"]) <= running | pages | testing
    assert not (running & pages) | (running & testing) | (pages & testing)


def pinned_in(name: str) -> set[str]:
    return set(re.findall(r"^([a-z0-9-]+)==", (ROOT / name).read_text(), flags=re.MULTILINE))


def wanted(requirements: list[str]) -> set[str]:
    return {re.split(r"[>=<\[]", requirement)[0] for requirement in requirements}


def test_links_of_the_docs_lead_somewhere() -> None:
    for page in [ROOT / "README.md", ROOT / "CONTRIBUTING.md", *DOCS.rglob("*.md")]:
        for link in re.findall(r"\]\(([^)#]+)[^)]*\)", page.read_text(encoding="utf-8")):
            assert link.startswith("http") or (page.parent / link).exists(), f"{page.name}: {link}"


def test_decisions_are_numbered_one_by_one_and_stay_short() -> None:
    """Each page is headed by its number; a page is about 400 words, 450 at most."""
    pages = sorted((DOCS / "decisions").iterdir())
    assert [page.name[:4] for page in pages] == [f"{number:04}" for number in range(1, len(pages) + 1)]
    for page in pages:
        text = page.read_text(encoding="utf-8")
        assert text.startswith(f"# {page.name[:4]} · "), page.name
        assert len(text.split()) <= 450, page.name


def test_decisions_are_held_by_files_that_exist() -> None:
    """What stands in code marks and looks like a path is one; a bare file name stands beside the path before it."""
    for page in (DOCS / "decisions").iterdir():
        folder = ROOT
        for name in re.findall(r"`([a-z_/]+\.(?:py|toml|md))`", page.read_text(encoding="utf-8")):
            places = [ROOT / name, ROOT / "src" / "moldwright" / name, folder / name]
            found = next((place for place in places if place.is_file()), None)
            assert found, f"{page.name}: {name}"
            folder = found.parent
