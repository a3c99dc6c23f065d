"""What long work does, by its kind; a module is loaded only in the process that needs it, which so begins sooner."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from importlib import import_module
from typing import Any

from moldwright.web.long_work.job import WorkKind

DoWork = Callable[..., dict[str, Any]]
WHERE: Mapping[WorkKind, str] = {
    WorkKind.LOOK_SCAN: "moldwright.web.long_work.kinds.scan:look_scan",
    WorkKind.LOOK_PHOTOS: "moldwright.web.long_work.kinds.photos:look_photos",
    WorkKind.PLAN: "moldwright.web.long_work.kinds.plan:plan",
    WorkKind.TRIAL: "moldwright.web.long_work.kinds.plan:trial",
    WorkKind.DEMO: "moldwright.web.long_work.kinds.demo:demo",
}


def work_of(kind: WorkKind) -> DoWork:
    """What does work of a kind: given the job's folder, the progress and the order by name, it returns plain values.

    Parameters
    ----------
    kind : the kind.
    """
    module, _, name = WHERE[kind].partition(":")
    found: DoWork = getattr(import_module(module), name)
    return found
