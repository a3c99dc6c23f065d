"""The mark of words that are translated when they are shown, for pages."""

from __future__ import annotations

from moldwright.words.marked import Words, words

__all__ = ["Words", "words"]
