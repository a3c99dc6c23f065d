"""The licenses of what npm brings into the bundles, as they must go along with them."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from pathlib import Path

from tools.bundling.places import MODULES, BundlingFailed

NAME = "NOTICES.txt"
FILES = ("LICENSE", "LICENSE.md", "LICENSE.txt", "license", "LICENCE")
RULE = "=" * 78
HEAD = "The scripts, styles and fonts of this folder hold the following packages, under these licenses.\n"


def notices(inputs: Iterable[str]) -> str:
    """A head, then each package with its version, its license's name and text."""
    return "\n".join([HEAD, *(notice(folder) for folder in packages(inputs))])


def packages(inputs: Iterable[str]) -> Iterator[Path]:
    """The folders of all packages that a bundle has a file of."""
    inside = [Path(name).relative_to(MODULES).parts for name in inputs if Path(name).is_relative_to(MODULES)]
    yield from sorted({MODULES.joinpath(*parts[: 2 if parts[0].startswith("@") else 1]) for parts in inside})


def notice(package: Path) -> str:
    """One package: what it is, and its license as it tells it."""
    told = json.loads((package / "package.json").read_text(encoding="utf-8"))
    texts = [package / name for name in FILES if (package / name).is_file()]
    if not texts:
        raise BundlingFailed(f"the package {told['name']} has no license file, so it cannot go into the bundles")
    title = f"{RULE}\n{told['name']} {told['version']} ({told['license']})\n{RULE}"
    return f"{title}\n{texts[0].read_text('utf-8').strip()}\n"
