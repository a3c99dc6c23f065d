"""The plan's values of a few orders, as JSON on stdout; `--scrambled SEED`: with random words in all data files.

Run as a process of its own, since data files are read once a process.
"""

from __future__ import annotations

import json
import random
import re
import sys
import tomllib
from typing import Any

SENTENCES = {
    "text", "again", "say", "title", "plain", "needs", "do", "before", "write", "defer", "reason", "remedy", "source",
    "about", "name", "cautions", "heading",
}  # fmt: skip
"""The keys of the data files under which words for people stand."""
TABLES = {"say", "statements", "short", "by_tag", "tool", "need", "form"}
"""The tables of the data files that hold nothing else."""
KEPT = {"id", "pair", "when", "severity", "rule", "use"}
"""Keys that decide, also within a table of words."""


def scramble(seed: int) -> None:
    """From now on every parsed table has random letters for every sentence; the names of quantities stay."""
    chance, loads = random.Random(seed), tomllib.loads
    tomllib.loads = lambda text: scrambled(loads(text), chance)  # type: ignore[assignment,misc]


def scrambled(value: Any, chance: random.Random, words: bool = False) -> Any:
    if isinstance(value, dict):
        return {key: scrambled(item, chance, told(key, item, words)) for key, item in value.items()}
    if isinstance(value, list):
        return [scrambled(item, chance, words) for item in value]
    if not (words and isinstance(value, str)):
        return value
    return re.sub(r"[A-Za-z]+(?![^{]*\})", lambda found: noise(len(found[0]), chance), value)


def told(key: str, item: Any, words: bool) -> bool:
    """Whether what stands under a key is words: a table of words, a sentence, or in one of these and no key of ours."""
    if isinstance(item, dict):
        return key in TABLES
    return key not in KEPT and (words or key in SENTENCES)


def noise(letters: int, chance: random.Random) -> str:
    return "".join(chance.choice("bcdfghjklmnpqrstvwxyz") for _ in range(letters))


def without_words(value: Any) -> Any:
    """The tree without what is only said: names, sources, words that a quantity quotes, somebody's own lines."""
    if isinstance(value, list):
        return [without_words(item) for item in value]
    if not isinstance(value, dict):
        return value
    gone = {"name", "material", "source", "own", "about"}
    if isinstance(value.get("value"), str):
        gone |= {"value"}
    return {key: without_words(item) for key, item in value.items() if key not in gone}


def orders() -> list[Any]:
    from made_up_job import commission  # noqa: PLC0415

    from moldwright.commission.orders import CastOrder, MoldOrder, ShopOrder  # noqa: PLC0415

    return [
        commission(),
        commission("sulfur clay", mold=MoldOrder(rubber="addition-cure-a20-slow", shell="printed")),
        commission("plaster", mold=MoldOrder(rubber="urethane-a30", shell="fiber-gypsum")),
        commission("wax", mold=MoldOrder(rubber="latex"), cast=CastOrder(resin="modified-gypsum", powder="marble")),
        commission(cast=CastOrder(resin="polyester", powder="aluminum", backfill="epoxy-slow")),
        commission("moon rock", shop=ShopOrder(scale_g=1.0), cast=CastOrder(powder="none", backfill="none")),
    ]


def values() -> list[Any]:
    from made_up_job import job_of  # noqa: PLC0415
    from told import done  # noqa: PLC0415

    from moldwright.plan.json_text import tree_of  # noqa: PLC0415
    from moldwright.steps.shape_cautions import ShapeFindings  # noqa: PLC0415

    shape = ShapeFindings(0.1)
    jobs = [job_of(order) for order in orders()]
    parts = [(job.rubber, job.cast.cast, job.mixes, job.needs, job.assumed, done(job, shape=shape)) for job in jobs]
    return [without_words(tree_of(part)) for part in parts]


if __name__ == "__main__":
    if sys.argv[1:2] == ["--scrambled"]:
        scramble(int(sys.argv[2]))
    from moldwright.steps.sentences import sentences

    json.dump({"values": values(), "sentences": dict(sentences())}, sys.stdout)
