"""An event's body as JSON text and back: always the same text for the same body."""

from __future__ import annotations

import json
from typing import Any

from moldwright.errors import InputRefused
from moldwright.log.any_events import Unread
from moldwright.log.event import Body
from moldwright.log.kinds import KINDS, NAMES
from moldwright.plan.json_text import tree_of
from moldwright.store.walk import Reader, Torn, read


def kind_of(body: Body) -> str:
    """The name of a body's kind.

    Parameters
    ----------
    body : what happened.
    """
    return body.kind if isinstance(body, Unread) else NAMES[type(body)]


def body_text(body: Body) -> str:
    """A body as one line of JSON; of a kind that is not known as it came.

    Parameters
    ----------
    body : what happened.
    """
    return body.json if isinstance(body, Unread) else compact(tree_of(body))


def compact(tree: Any) -> str:
    """A tree as one line of JSON, keys in their order.

    Parameters
    ----------
    tree : dicts, lists, texts and numbers.
    """
    return json.dumps(tree, ensure_ascii=False, separators=(",", ":"), allow_nan=False)


def body_of(kind: str, text: str) -> Body:
    """The body that a text holds; of an unknown kind `Unread`; InputRefused where it is no such body.

    Parameters
    ----------
    kind : its name.
    text : JSON, as `body_text` writes it; fields that have a default may be missing, unknown ones are passed over.
    """
    known = KINDS.get(kind)
    if known is None:
        return Unread(kind, text)
    try:
        body = read(known, json.loads(text), _BodyReader(), kind)
    except (Torn, ValueError, RecursionError) as error:
        remedy = "Send it again from the bench that wrote it."
        raise InputRefused("event-unreadable", f"{kind}: {error}", "an event of this version", "", remedy) from None
    assert isinstance(body, Body)
    return body


class _BodyReader(Reader):
    defaults = True
