"""Elements of the desk's own that its pages name.

Source: HTML Living Standard, 4.13 Custom elements: an element of a name that no script has defined does nothing at all.
"""

from __future__ import annotations

import re
from pathlib import Path

import moldwright.web

WEB = Path(moldwright.web.__file__).parent


def found(pattern: str, ending: str) -> set[str]:
    texts = (path.read_text(encoding="utf-8") for path in WEB.rglob(f"*.{ending}") if "built" not in path.parts)
    return {name for text in texts for name in re.findall(pattern, text)}


def test_every_element_that_a_page_names_is_defined_by_a_script() -> None:
    assert found(r"<(mw-[a-z-]+)", "html") <= found(r"""define\(\s*["'](mw-[a-z-]+)["']""", "ts")
