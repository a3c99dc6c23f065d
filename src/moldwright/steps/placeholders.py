"""The places in a sentence where a quantity stands: {height}, or with its noun {coat.cups:cup}."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from moldwright.errors import ComputationFailed
from moldwright.plan.quantity import Quantity
from moldwright.steps.sheet import Sentence

PLACE = re.compile(r"\{([a-z_.]+)(?::([a-z -]+))?\}")
"""Name and, behind a colon, the noun that is counted."""


def quantities_in(sentences: Iterable[Sentence], quoted: Mapping[str, Quantity]) -> tuple[Quantity, ...]:
    """The quantities that these sentences quote, each once, in the order of their first mention.

    Parameters
    ----------
    sentences : of one step or caution.
    quoted : every quantity of the job by its name.

    Raises ComputationFailed where the job has no such quantity: a fault of the data.
    """
    names = dict.fromkeys(name for sentence in sentences for name in names_in(sentence.text))
    missing = [name for name in names if name not in quoted]
    if missing:
        raise ComputationFailed("step-data-broken", missing[0], None, "", "No quantity of that name: mend the data.")
    return tuple(quoted[name] for name in names)


def names_in(text: str) -> tuple[str, ...]:
    """The names of the quantities that a sentence quotes.

    Parameters
    ----------
    text : the sentence with its places.

    >>> names_in("Mix {coat.mixed} in {coat.cups:cup}.")
    ('coat.mixed', 'coat.cups')
    """
    return tuple(match[1] for match in PLACE.finditer(text))
