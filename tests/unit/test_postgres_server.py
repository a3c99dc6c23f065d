"""The tests' own PostgreSQL: one database for each, and no test that is quietly left out."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from postgres_server import NEEDED, Server

TESTS = Path(__file__).parents[1]
ROOT = TESTS.parent


@pytest.mark.parametrize(("needed", "told"), [("", "1 skipped"), ("1", "1 error")])
def test_where_there_is_none_a_test_is_skipped_but_where_it_is_needed_it_fails(needed: str, told: str) -> None:
    code = (
        "import pathlib, sys, pytest, postgres_server\n"
        "postgres_server.PLACES = '/nowhere'\n"
        "sys.exit(pytest.main(['tests/unit/test_records_shop.py', '-k', 'urn and postgresql']))"
    )
    found = os.pathsep.join([str(TESTS), *filter(None, [os.environ.get("PYTHONPATH")])])
    bare = {**os.environ, NEEDED: needed, "PATH": str(Path(sys.executable).parent), "PYTHONPATH": found}
    command = [sys.executable, "-c", code]
    done = subprocess.run(command, cwd=ROOT, env=bare, capture_output=True, text=True, check=False)
    assert told in done.stdout, done.stdout + done.stderr
    assert "Debian's package `postgresql` brings it" in done.stdout or not needed


def test_each_database_is_its_own(postgres: Server) -> None:
    names = {postgres.database(), postgres.database()}
    assert len(names) == 2
    for name in names:
        postgres.drop(name)


def test_the_continuous_run_needs_it() -> None:
    text = (ROOT / ".ci" / "run").read_text()
    run = next(line for line in text.splitlines() if line.endswith("make test"))
    assert f"{NEEDED}=1 " in run
    assert "missing+=(postgresql)" in text
