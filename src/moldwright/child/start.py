"""Starting the child process, and what its end says."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import moldwright

ORDER = "order.json"
SINGLE = dict.fromkeys(("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS", "NUMBA_NUM_THREADS"), "1")
Child = subprocess.Popen[bytes]


@contextmanager
def child_process(module: str, order: dict[str, Any], folder: Path) -> Iterator[Child]:
    """A child that runs a module with an order, ended at the latest when the block is left.

    Parameters
    ----------
    module : its full name; its `main` takes the order with `moldwright.child.serve`.
    order : plain values for the child.
    folder : an empty or own folder, where the order is written and the answer will be.
    """
    (folder / ORDER).write_text(json.dumps(order), encoding="utf-8")
    source = str(Path(moldwright.__file__).parent.parent)
    command = [sys.executable, "-P", "-m", module, str(folder)]
    environment = {**os.environ, **SINGLE, "PYTHONPATH": source}
    quiet = subprocess.DEVNULL
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=quiet, stderr=quiet, env=environment) as child:
        try:
            yield child
        finally:
            child.kill()


def out_of_time(code: int) -> bool:
    """Whether a child's exit code says that it used up its processor time.

    Parameters
    ----------
    code : negative for the signal that ended it.
    """
    return os.name == "posix" and code == -signal.SIGXCPU
